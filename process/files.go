package process

import (
	"embed"
	"errors"
	"fmt"
	"math"
	"path"
	"slices"
	"strings"

	"borewright/process/qty"
)

// What is built in is written in the same files that a user may write.
//
//go:embed catalog
var catalog embed.FS

// Machines are the built-in machines, by ID.
func Machines() []*Machine { return builtIn("machines", LoadMachine) }

// Materials are the built-in work and sleeve materials, by ID.
func Materials() []*Material { return builtIn("materials", LoadMaterial) }

// CutterMaterials are the built-in cutter materials, by ID.
func CutterMaterials() []*CutterMaterial { return builtIn("cutters", LoadCutterMaterial) }

// BarMaterials are the built-in bar materials, by ID.
func BarMaterials() []*BarMaterial { return builtIn("bars", LoadBarMaterial) }

// MachineByID finds a built-in machine; nil when there is none of that ID. So
// do the other lookups.
func MachineByID(id string) *Machine { return lookUp("machines", id, LoadMachine) }

// MaterialByID finds a built-in material.
func MaterialByID(id string) *Material { return lookUp("materials", id, LoadMaterial) }

// CutterMaterialByID finds a built-in cutter material.
func CutterMaterialByID(id string) *CutterMaterial {
	return lookUp("cutters", id, LoadCutterMaterial)
}

// BarMaterialByID finds a built-in bar material.
func BarMaterialByID(id string) *BarMaterial { return lookUp("bars", id, LoadBarMaterial) }

type loadFunc[T any] func(name string, data []byte) (*T, error)

func builtIn[T any](dir string, load loadFunc[T]) []*T {
	var all []*T
	for _, id := range builtInIDs(dir) {
		all = append(all, lookUp(dir, id, load))
	}
	return all
}

func builtInIDs(dir string) []string {
	entries, err := catalog.ReadDir(path.Join("catalog", dir))
	if err != nil {
		panic(err) // embedded: only our own bug
	}
	var ids []string
	for _, e := range entries {
		ids = append(ids, strings.TrimSuffix(e.Name(), ".toml"))
	}
	slices.Sort(ids)
	return ids
}

func lookUp[T any](dir, id string, load loadFunc[T]) *T {
	if !slices.Contains(builtInIDs(dir), id) {
		return nil
	}
	name := path.Join("catalog", dir, id+".toml")
	data, err := catalog.ReadFile(name)
	if err == nil {
		var x *T
		if x, err = load(name, data); err == nil {
			return x
		}
	}
	panic(err) // embedded: only our own bug, and a test reads them all
}

// idOf is the ID of a file: its name without folders and ending.
func idOf(name string) string {
	name = strings.ReplaceAll(name, `\`, "/")
	return strings.TrimSuffix(path.Base(name), ".toml")
}

// LoadMachine reads a machine file. The error, if any, is of type Errors.
func LoadMachine(name string, data []byte) (*Machine, error) {
	r, p := read(name, data, newSchema("machine file", machineKeys()))
	if r == nil {
		return nil, p.err()
	}
	m := &Machine{
		ID: idOf(name), Name: r.text("name"),
		Nose: r.diameter("nose"), Quill: r.diameter("quill"), QuillTravel: r.length("quill_travel"),
		Power: get[qty.Power](r, "power"), Torque: get[qty.Torque](r, "torque"),
		Radial: r.num("radial"), Tilt: r.num("tilt"), ForceFactor: r.num("force_factor"),
		Dial: r.length("dial"), SetDial: r.length("set_dial"),
	}
	m.Source = r.sourceText()
	for i, f := range list[string](r, "feed_by") {
		by := TableFeed
		if f == "quill" {
			by = QuillFeed
		}
		if m.CanFeed(by) {
			r.bad(el("feed_by", i), quoted([]string{f})+" stands here twice", "name each once")
		}
		m.FeedBy = append(m.FeedBy, by)
	}
	m.Speeds = ladder(r, "speeds", "speed_range", list[float64](r, "speeds"), list[float64](r, "speed_range"))
	m.Feeds = ladder(r, "feeds", "feed_range", inMM(list[qty.Length](r, "feeds")), inMM(list[qty.Length](r, "feed_range")))
	for i := range r.counts["travel"] {
		at := el("travel", i)
		m.Travels = append(m.Travels, Travel{Axis: r.text(at + ".axis"), Travel: r.length(at + ".travel"), What: r.text(at + ".what")})
	}
	if d := list[float64](r, "damping"); len(d) == 2 {
		if m.Damping = [2]float64{d[0], d[1]}; d[0] > d[1] {
			r.badf("damping", "write the least first", "least %s is above most %s", number(d[0]), number(d[1]))
		}
	}
	if r.given["control"] {
		m.Control = control(r)
	}
	checkMachine(r, m)
	if err := r.err(); err != nil {
		return nil, err
	}
	return m, nil
}

func inMM(ls []qty.Length) []float64 {
	var out []float64
	for _, l := range ls {
		out = append(out, l.MM())
	}
	return out
}

// ladder reads either a rising list or least and most.
func ladder(r *reader, steps, span string, ladder, ends []float64) Range {
	switch {
	case r.given[steps] && r.given[span]:
		r.bad(span, "stands beside "+steps, "give one: "+steps+" for a gear box, "+span+" for a drive without steps")
	case !r.given[steps] && !r.given[span]:
		r.add(Pos{1, 1}, steps, "is missing", "write "+r.schema.known[steps].exampleFor(r.units)+", or "+r.schema.known[span].exampleFor(r.units))
	case len(ladder) > 0:
		for i := 1; i < len(ladder); i++ {
			if ladder[i] <= ladder[i-1] {
				r.bad(el(steps, i), "the ladder does not rise here", "list the steps from the lowest to the highest, each once")
				break
			}
		}
		return Range{Steps: ladder, Least: ladder[0], Most: ladder[len(ladder)-1]}
	case len(ends) == 2:
		if ends[0] >= ends[1] {
			r.bad(span, "the least is not below the most", "write the least first")
		}
		return Range{Least: ends[0], Most: ends[1]}
	}
	return Range{}
}

// in sets the units of the program, and with them the places after the point
// where the file leaves those open too.
func (k *Control) in(u qty.Unit) {
	k.Units = u
	if k.usualPlaces {
		k.PartPlaces = [...]int{3, 4}[u]
	}
}

func control(r *reader) *Control {
	const c = "control."
	k := &Control{
		DecimalPoint: r.flag(c + "decimal_point"),
		WholePlaces:  get[int](r, c+"whole_places"),
		PartPlaces:   get[int](r, c+"part_places"),
		DropZeros:    r.text(c + "drop_zeros"),
		Units:        r.units,
		UnitsWord:    r.text(c + "units_word"),
		BlockNumbers: r.flag(c + "block_numbers"), BlockStep: get[int](r, c+"block_step"),
		FeedPerRev: r.flag(c + "feed_per_rev"), Cycles: r.flag(c + "cycles"), ReturnWords: r.flag(c + "return_words"),
		Dwell: r.text(c + "dwell"), DwellWord: r.text(c + "dwell_word"),
		OrientedStop: r.flag(c + "oriented_stop"), TipAtStop: r.text(c + "tip_at_stop"),
		Comments: r.flag(c + "comments"), Percent: r.flag(c + "percent"),
		ProgramNumber: get[int](r, c+"program_number"),
		FeedAxis:      r.text(c + "feed_axis"), QuillAxis: r.text(c + "quill_axis"),
		LineMost: get[int](r, c+"line_most"), WorkOffset: r.text(c + "work_offset"),
		SpaceWords: r.flag(c + "space_words"), PlainText: r.text(c+"characters") == "plain",
	}
	switch r.text(c + "units") {
	case "in":
		k.Units = qty.Inches
	case "mm":
		k.Units = qty.Metric
	default:
		k.AsJob = true
	}
	k.usualPlaces = !r.given[c+"part_places"]
	k.in(k.Units)
	if k.WorkOffset == "none" {
		k.WorkOffset = ""
	}
	switch {
	case k.DecimalPoint && r.given[c+"drop_zeros"]:
		r.bad(c+"drop_zeros", "is for fixed format, and this control takes a decimal point", "leave it out, or write decimal_point = false")
	case !k.DecimalPoint && !r.given[c+"drop_zeros"]:
		k.DropZeros = "leading"
	}
	switch {
	case k.OrientedStop && !r.given[c+"tip_at_stop"]:
		r.bad(c+"oriented_stop", "does not say where the tip points after M19", `write tip_at_stop = "+X" (or "-X", "+Y", "-Y") as seen from the spindle`)
	case !k.OrientedStop && r.given[c+"tip_at_stop"]:
		r.bad(c+"tip_at_stop", "is given, but the spindle has no oriented stop", "write oriented_stop = true, or leave tip_at_stop out")
	}
	return k
}

// checkMachine catches figures that do not belong to one machine.
func checkMachine(r *reader, m *Machine) {
	if r.has("nose", "quill") && m.Quill >= m.Nose {
		r.badf("quill", "the quill slides in the nose and must be thinner", "%s is not smaller than the nose, %s", r.dia(m.Quill), r.dia(m.Nose))
	}
	if m.CanFeed(QuillFeed) && m.QuillTravel == 0 && (r.has("quill_travel")) {
		r.bad("feed_by", "names the quill, whose quill_travel is 0", "write quill_travel, or feed by the table alone")
	}
	if r.has("power", "torque") && m.Speeds.Most > 0 {
		// P = T·ω: below this speed the torque is what is left, above it the power.
		if base := float64(m.Power) / float64(m.Torque) * 60 / (2 * math.Pi); base > m.Speeds.Most {
			r.badf("torque", "check the units of torque and power",
				"with this torque the power would be reached at %.0f rev/min, above the fastest speed %s", base, number(m.Speeds.Most))
		}
	}
	seen := map[string]bool{}
	for i, t := range m.Travels {
		if t.Axis != "" && seen[t.Axis] {
			r.bad(el("travel", i)+".axis", "axis "+t.Axis+" stands here twice", "give each axis its own letter")
		}
		seen[t.Axis] = true
	}
	if c := m.Control; c != nil {
		if m.CanFeed(TableFeed) && m.CanFeed(QuillFeed) && c.FeedAxis == c.QuillAxis && r.has("control.feed_axis", "control.quill_axis") {
			r.bad("control.quill_axis", "table and quill both feed as "+c.QuillAxis, `give them different letters: feed_axis = "W", quill_axis = "Z" or the reverse`)
		}
		for _, a := range []struct {
			key, axis string
			by        FeedBy
		}{{"control.feed_axis", c.FeedAxis, TableFeed}, {"control.quill_axis", c.QuillAxis, QuillFeed}} {
			if m.CanFeed(a.by) && a.axis != "" && !seen[a.axis] && len(m.Travels) > 0 {
				r.bad(a.key, "axis "+a.axis+" is not among the travels", "list it under travel, or name the letter that feeds")
			}
		}
	}
}

// LoadMaterial reads a work material file. The error, if any, is of type Errors.
func LoadMaterial(name string, data []byte) (*Material, error) {
	r, p := read(name, data, newSchema("material file", materialKeys()))
	if r == nil {
		return nil, p.err()
	}
	m := &Material{
		ID: idOf(name), Name: r.text("name"), Group: r.text("group"),
		Kc11: r.num("kc11"), Mc: r.num("mc"),
		ThrustRatio: r.num("thrust_ratio"), ThrustFall: r.num("thrust_fall"), Rake0: r.num("rake0"),
		E: r.num("elasticity") * 1000, Nu: r.num("poisson"),
		Rm: r.num("tensile"), Re: r.num("yield"), Brittle: r.flag("brittle"),
		Alpha: r.num("expansion") * 1e-6, Rho: r.num("density"),
		RaFactor: r.num("ra_factor"), HeatMost: r.num("heat_most"),
		Speeds: map[string]SpeedBand{}, Sources: get[map[string]string](r, "source"),
	}
	if m.Sources == nil {
		m.Sources = map[string]string{}
	}
	if r.has("tensile", "yield") && m.Re > m.Rm {
		r.badf("yield", "yield cannot be above tensile", "%s MPa is above the tensile strength %s MPa", number(m.Re), number(m.Rm))
	}
	for _, c := range cutterClasses() {
		at := "speed." + c
		if !r.given[at] {
			continue
		}
		b := SpeedBand{Source: r.text(at + ".source")}
		for _, which := range []struct {
			key string
			to  *[2]qty.CuttingSpeed
		}{{at + ".rough", &b.Rough}, {at + ".finish", &b.Finish}} {
			v := list[qty.CuttingSpeed](r, which.key)
			if len(v) != 2 {
				continue
			}
			if *which.to = [2]qty.CuttingSpeed{v[0], v[1]}; v[0] > v[1] {
				r.bad(which.key, "the least is above the most", "write the least first")
			}
		}
		m.Speeds[c] = b
		if b.Source != "" {
			m.Sources[at] = b.Source
		}
	}
	if len(m.Speeds) == 0 && r.given["speed"] {
		r.bad("speed", "holds no cutting speeds", "give "+quoted(cutterClasses()))
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return m, nil
}

// LoadCutterMaterial reads a cutter material file. The error, if any, is of
// type Errors.
func LoadCutterMaterial(name string, data []byte) (*CutterMaterial, error) {
	r, p := read(name, data, newSchema("cutter material file", cutterKeys()))
	if r == nil {
		return nil, p.err()
	}
	c := &CutterMaterial{
		ID: idOf(name), Name: r.text("name"), Class: r.text("class"), Force: r.num("force"),
		Edge: r.length("edge"), MinChip: r.num("min_chip"), Rake: r.num("rake"), Source: r.sourceText(),
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return c, nil
}

// LoadBarMaterial reads a bar material file. The error, if any, is of type
// Errors.
func LoadBarMaterial(name string, data []byte) (*BarMaterial, error) {
	r, p := read(name, data, newSchema("bar material file", barKeys()))
	if r == nil {
		return nil, p.err()
	}
	b := &BarMaterial{
		ID: idOf(name), Name: r.text("name"), E: r.num("elasticity") * 1000, Nu: r.num("poisson"),
		Rho: r.num("density"), Allowed: r.num("allowed"), Reach: r.num("reach"), Source: r.sourceText(),
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return b, nil
}

// sourceText joins the remarks on sources: the one for all, then key by key in
// the order of the table.
func (r *reader) sourceText() string {
	src := get[map[string]string](r, "source")
	var parts []string
	if s := src["all"]; s != "" {
		parts = append(parts, s)
	}
	for _, f := range r.schema.fields {
		if s := src[f.path]; s != "" {
			parts = append(parts, f.path+": "+s)
		}
	}
	return strings.Join(parts, "; ")
}

// library resolves what a job names: built in, or a file of the user's own.
type library struct {
	r    *reader
	open func(path string) ([]byte, error)
	read map[string]any // what was loaded, so that a file is read and blamed once
}

// resolve finds what key names. It is nil where that failed, and the problem
// is noted: at the key, or in the user's file under that file's own name.
func resolve[T any](l *library, key, dir, what string, load loadFunc[T]) *T {
	id := l.r.text(key)
	if id == "" {
		return nil // missing or bad: already said
	}
	if x, ok := l.read[dir+":"+id].(*T); ok {
		return x
	}
	var x *T
	ids := builtInIDs(dir)
	switch {
	case !strings.HasSuffix(strings.ToLower(id), ".toml"):
		if x = lookUp(dir, id, load); x == nil {
			allowed := "built in are " + strings.Join(ids, ", ") + "; or name a file ending in .toml"
			if n := nearest(id, ids); n != "" {
				allowed = fmt.Sprintf("did you mean %q? ", n) + strings.ToUpper(allowed[:1]) + allowed[1:]
			}
			l.r.bad(key, fmt.Sprintf("there is no built-in %s %q", what, show(id)), allowed)
		}
	case l.open == nil:
		l.r.bad(key, fmt.Sprintf("names the file %q, and no file can be opened here", show(id)), "name a built-in "+what+": "+strings.Join(ids, ", "))
	default:
		data, err := l.open(id)
		if err != nil {
			l.r.bad(key, fmt.Sprintf("the file %q cannot be read: %s", show(id), show(err.Error())),
				"give a path relative to the job file, or a built-in "+what+": "+strings.Join(ids, ", "))
			break
		}
		var mistakes Errors
		if x, err = load(id, data); errors.As(err, &mistakes) {
			l.r.bad(key, fmt.Sprintf("the file %q has mistakes", show(id)), "they are listed below with its name")
			l.r.found = append(l.r.found, mistakes...)
		}
	}
	l.read[dir+":"+id] = x
	return x
}
