package process

import (
	"fmt"
	"math"

	"borewright/process/qty"
)

// Load reads a process description, fills in what it leaves out and checks it.
// The name is for messages. open gives the bytes of a file that the job names
// (a machine or material of the user's own), by the path as written; nil where
// there are none to be had. The error, if any, is of type Errors and holds
// every mistake of the job and of the files it names.
func Load(name string, data []byte, open func(path string) ([]byte, error)) (*Job, error) {
	r, p := read(name, data, newSchema("job file", jobKeys()))
	if r == nil {
		return nil, p.err()
	}
	lib := &library{r: r, open: open, read: map[string]any{}}
	c := &checker{reader: r, j: &Job{File: r.file, Units: r.units, positions: r.at}}
	c.head(lib)
	c.stations()
	c.bores(lib)
	c.bar(lib)
	c.cutter(lib)
	c.sleeve(lib)
	c.sweeps()
	c.lineUp()
	c.shop(lib)
	c.limits()
	if r.known { // a job whose unit is not known cannot be judged
		c.check()
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return c.j, nil
}

// Where is the place of a key path such as "bore[0].finish" or "bar", as
// "job.toml:31:1"; of the nearest table around it when the file leaves the key
// out.
func (j *Job) Where(key string) string {
	p := where(j.positions, key)
	return fmt.Sprintf("%s:%d:%d", fileName(j.File), p.Line, p.Col)
}

// checker builds the job out of what was read and judges it as a whole.
type checker struct {
	*reader
	j *Job
}

func (c *checker) head(lib *library) {
	j := c.j
	j.Number, j.Revision, j.Title, j.Customer = c.text("number"), c.text("revision"), c.text("title"), c.text("customer")
	j.Notes = list[string](c.reader, "notes")
	j.Machine = resolve(lib, "machine", "machines", "machine", LoadMachine)
	if m := j.Machine; m != nil && m.Control != nil && m.Control.AsJob {
		m.Control.in(j.Units)
	}
	j.Material = resolve(lib, "material", "materials", "material", LoadMaterial)
}

func (c *checker) stations() {
	for i := range c.counts["station"] {
		at := el("station", i) + "."
		s := Station{
			Name: c.text(at + "name"), From: c.length(at + "from"), To: c.length(at + "to"),
			Diameter: c.diameter(at + "diameter"), Swept: c.flag(at + "swept"), Blind: c.flag(at + "blind"),
			Relief: c.length(at + "relief"), Wall: c.length(at + "wall"), WallMost: c.length(at + "wall_most"),
		}
		if s.WallMost == 0 {
			s.WallMost = s.Wall
		}
		c.j.Stations = append(c.j.Stations, s)
	}
}

func (c *checker) bores(lib *library) {
	for i := range c.counts["bore"] {
		at := el("bore", i)
		b := Bore{
			Station: c.station(at + ".station"), Finish: c.finish(at + ".finish"),
			Ra: c.length(at + ".ra"), Roundness: c.length(at + ".roundness"),
			Offset: c.length(at + ".offset"), Witness: c.flag(at + ".witness"), Wear: c.wear(at + ".wear"),
		}
		b.Part = ends[qty.Length, qty.Diameter](c.reader, at+".part")
		b.PartOf = resolve(lib, at+".part_material", "materials", "material", LoadMaterial)
		if c.text(at+".repair") == "sleeve" {
			b.Repair = SleeveRepair
		}
		if b.Roundness == 0 {
			b.Roundness = b.Finish.Tolerance() / 2
		}
		c.j.Bores = append(c.j.Bores, b)
	}
}

// station finds the index of the station that a key names, -1 if there is none.
func (c *checker) station(key string) int {
	name := c.text(key)
	if name == "" {
		return -1
	}
	var names []string
	for i, s := range c.j.Stations {
		if s.Name == name {
			return i
		}
		if s.Name != "" {
			names = append(names, s.Name)
		}
	}
	allowed := "stations are " + quoted(names)
	if len(names) == 0 || len(names) < len(c.j.Stations) {
		return -1 // a station lacks its name, and that has been said
	}
	if n := nearest(name, names); n != "" {
		allowed = fmt.Sprintf("did you mean %q? ", n) + "Stations are " + quoted(names)
	}
	c.bad(key, fmt.Sprintf("there is no station %q", show(name)), allowed)
	return -1
}

func (c *checker) wear(at string) []Reading {
	var all []Reading
	for i := range c.counts[at] {
		el := el(at, i) + "."
		rd := Reading{Depth: c.length(el + "depth"), At: list[float64](c.reader, el+"at")}
		for k, a := range rd.At {
			rd.At[k] = math.Mod(a, 360)
		}
		if c.has(el + "radius") {
			rd.Radius = list[qty.Length](c.reader, el+"radius")
		}
		if c.has(el + "across") {
			for _, l := range list[qty.Length](c.reader, el+"across") {
				rd.Across = append(rd.Across, qty.Diameter(l))
			}
		}
		all = append(all, rd)
	}
	return all
}

func (c *checker) bar(lib *library) {
	b := &c.j.Bar
	b.Name = c.text("bar.name")
	b.Steps = c.steps(lib, "bar")
	if c.text("bar.feed_by") == "quill" {
		b.FeedBy = QuillFeed
	}
	if b.CutterAt = c.length("bar.cutter_at"); !c.given["bar.cutter_at"] {
		b.CutterAt = b.Stickout()
	}
	b.Standoff = c.length("bar.standoff")
	if b.FeedBy == QuillFeed && b.Standoff == 0 && !c.badly("bar.standoff") {
		b.Standoff = c.standoff()
	}
	if c.given["bar.outboard"] {
		const at = "bar.outboard."
		b.Outboard = &Support{At: c.length(at + "at"), Clearance: c.length(at + "clearance"), Stiffness: c.num(at + "stiffness")}
	}
}

// badly reports a key that was given and could not be taken.
func (c *checker) badly(path string) bool { return c.given[path] && !c.has(path) }

// Room between the spindle and the work, in round figures of the job's units
// (common practice, no source).

// leastStandoff is the least from nose to face with quill feed.
func (j *Job) leastStandoff() qty.Length { return j.round(25, 1) }

// leastRoom is the least from nose to face with table feed, at the end of the
// cut.
func (j *Job) leastRoom() qty.Length { return j.round(6, 0.25) }

// standClear is what lies between tip and mouth before the cut where the loader
// chooses the standoff.
func (j *Job) standClear() qty.Length { return j.round(6, 0.25) }

func (j *Job) round(mm, inch float64) qty.Length {
	if j.Units == qty.Inches {
		return qty.FromInches(inch)
	}
	return qty.FromMM(mm)
}

// standoff chooses how far the nose stands from the face: the quill is flush
// when the tip stands clear of the first bore to cut.
func (c *checker) standoff() qty.Length {
	first := qty.Length(math.MaxInt64)
	for _, b := range c.j.Bores {
		if b.Station >= 0 {
			first = min(first, c.j.Stations[b.Station].From)
		}
	}
	if first == math.MaxInt64 {
		return c.j.leastStandoff()
	}
	return max(c.j.leastStandoff(), c.j.Bar.CutterAt-(first-c.j.standClear()))
}

func (c *checker) cutter(lib *library) {
	k := &c.j.Cutter
	*k = Cutter{
		Material:   resolve(lib, "cutter.material", "cutters", "cutter material", LoadCutterMaterial),
		NoseRadius: c.length("cutter.nose_radius"),
		Lead:       c.num("cutter.lead"), Trail: c.num("cutter.trail"), Rake: c.num("cutter.rake"),
		EdgeRadius: c.length("cutter.edge_radius"),
		Least:      c.diameter("cutter.least"), Most: c.diameter("cutter.most"),
		Ahead: c.length("cutter.ahead"), Behind: c.length("cutter.behind"),
		SpeedRough: get[qty.CuttingSpeed](c.reader, "cutter.speed.rough"), SpeedFinish: get[qty.CuttingSpeed](c.reader, "cutter.speed.finish"),
	}
	if m := k.Material; m != nil {
		if !c.given["cutter.rake"] {
			k.Rake = m.Rake
		}
		if !c.given["cutter.edge_radius"] {
			k.EdgeRadius = m.Edge
		}
	}
	least, most := c.j.Bar.usualSizes()
	if !c.given["cutter.least"] {
		k.Least = least
	}
	if !c.given["cutter.most"] {
		k.Most = most
	}
}

// usualSizes are the smallest and largest that a cutter is usually set to in
// this bar; 0 where it has no step at the cutter. Common practice, no source.
func (b Bar) usualSizes() (least, most qty.Diameter) {
	at := b.stepAt(b.CutterAt)
	if at < 0 {
		return 0, 0
	}
	d := float64(b.Steps[at].Diameter)
	return qty.Diameter(math.Round(d * 1.06)), qty.Diameter(math.Round(d * 1.6))
}

// stepAt is the step that a place along the bar lies in, -1 beyond its ends.
func (b Bar) stepAt(l qty.Length) int {
	var end qty.Length
	for i, s := range b.Steps {
		if end += s.Length; l > 0 && l <= end {
			return i
		}
	}
	return -1
}

func (c *checker) sleeve(lib *library) {
	if !c.given["sleeve"] {
		return
	}
	s := &Sleeve{
		Material: resolve(lib, "sleeve.material", "materials", "material", LoadMaterial),
		Outside:  c.diameter("sleeve.outside"),
		Fit:      c.text("sleeve.fit"), Gap: c.length("sleeve.gap"),
		Allowance: c.length("sleeve.allowance"), Length: c.length("sleeve.length"),
	}
	if c.text("sleeve.hold") == "bond" {
		s.Hold = Bond
	}
	c.sleeveWork(s)
	switch {
	case s.Hold == Press && !c.given["sleeve.fit"]:
		s.Fit = "H7/r6"
	case s.Hold == Bond && !c.given["sleeve.gap"]:
		s.Gap = c.j.round(0.05, 0.002)
	}
	c.j.Sleeve = s
	if !c.given["sleeve.outside"] {
		c.chooseOutside()
	}
}

func (c *checker) sweeps() {
	for i := range c.counts["sweep"] {
		at := el("sweep", i) + "."
		s := Sweep{
			Station: c.station(at + "station"), Depth: c.length(at + "depth"), Face: c.flag(at + "face"),
			Diameter: c.diameter(at + "diameter"), At: list[float64](c.reader, at+"at"), Dial: list[qty.Length](c.reader, at+"dial"), Further: c.text(at+"larger") == "further",
			Stylus: c.num(at + "stylus"), Droop: c.length(at + "droop"), OutOfRound: c.length(at + "out_of_round"),
		}
		for k, a := range s.At {
			s.At[k] = math.Mod(a, 360)
		}
		if s.Face && s.Station >= 0 && !c.given[at+"depth"] {
			s.Depth = c.j.Stations[s.Station].From
		}
		if !s.Face && s.Station >= 0 && !c.given[at+"diameter"] {
			s.Diameter = c.j.Stations[s.Station].Diameter
		}
		c.j.Sweeps = append(c.j.Sweeps, s)
	}
}

func (c *checker) limits() {
	const at = "limits."
	l := &c.j.Limits
	*l = Limits{
		SpringRough: c.length(at + "spring_rough"), SpringFinish: c.length(at + "spring_finish"),
		DepthMost: c.length(at + "depth_most"), FeedMost: c.length(at + "feed_most"),
		SpeedMost: qty.RevPerMin(c.num(at + "speed_most")), Overhang: c.num(at + "overhang"),
		ForceError: c.num(at + "force_error"), SettingError: c.length(at + "setting_error"),
		GaugeError: c.length(at + "gauge_error"), Temperature: c.num(at + "temperature"),
		PassesMost: get[int](c.reader, at+"passes_most"), HoldMinutes: c.num(at + "hold_minutes"),
		ChipRoom: c.length(at + "chip_room"),
	}
	// The caution on overhang goes by the slender part of the bar.
	if !c.given[at+"overhang"] && len(c.j.Bar.Steps) > 0 {
		thin := c.j.Bar.Steps[0]
		for _, s := range c.j.Bar.Steps {
			if s.Diameter < thin.Diameter {
				thin = s
			}
		}
		l.Overhang = thin.Material.Reach
	}
}
