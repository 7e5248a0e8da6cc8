package files

import (
	"math"
	"path"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/control"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// Machine reads a machine file. The error, if any, is of type source.Errors.
func Machine(name string, data []byte) (*process.Machine, error) {
	m := &process.Machine{ID: idOf(name)}
	r, err := keys.Read(name, "machine file", data, m)
	if err != nil {
		return nil, err
	}
	for i, f := range m.FeedBy {
		if slices.Contains(m.FeedBy[:i], f) {
			r.Bad(source.El("feed_by", i), source.Quoted([]string{f.String()})+" stands here twice", "name each once")
		}
	}
	m.Speeds = ladder(r, "speeds", "speed_range", m.Speeds)
	m.Feeds = ladder(r, "feeds", "feed_range", m.Feeds)
	switch {
	case r.Given("damping") && r.Given("joint_damping"):
		r.Bad("joint_damping", "stands beside damping", "give one: damping where that of a bar in this spindle was measured, else joint_damping")
	case !r.Given("damping") && !r.Given("joint_damping"):
		r.Missing("joint_damping", "damping")
	}
	if m.Control != nil {
		completeControl(r, m.Control)
	}
	checkMachine(r, m)
	if err := r.Err(); err != nil {
		return nil, err
	}
	return m, nil
}

// ladder completes what is stated as either a rising list or a least and a most.
func ladder(r *keys.Reader, steps, span string, of process.Range) process.Range {
	switch {
	case r.Given(steps) && r.Given(span):
		r.Bad(span, "stands beside "+steps, "give one: "+steps+" for a gear box, "+span+" for a drive without steps")
	case !r.Given(steps) && !r.Given(span):
		r.Missing(steps, span)
	case len(of.Steps) > 0:
		for i := 1; i < len(of.Steps); i++ {
			if of.Steps[i] <= of.Steps[i-1] {
				r.Bad(source.El(steps, i), "the ladder does not rise here", "list the steps from the lowest to the highest, each once")
				break
			}
		}
		return process.Range{Steps: of.Steps, Least: of.Steps[0], Most: of.Steps[len(of.Steps)-1]}
	case r.Has(span):
		if of.Least == of.Most {
			r.Bad(span, "the least is the most", "write two that differ, or the one as a ladder: "+steps)
		}
		return of
	}
	return process.Range{}
}

// programIn sets the units of the program, and with them the places after the point
// where the file leaves those open too.
func programIn(k *process.Control, u qty.Unit) {
	k.Units = u
	if k.UsualPlaces {
		k.PartPlaces = [...]int{3, 4}[u]
	}
}

// completeControl fills in what the file leaves open and checks the rest.
func completeControl(r *keys.Reader, k *process.Control) {
	const c = "control."
	if k.AsJob = !r.Has(c + "units"); k.AsJob {
		k.Units = r.Units
	}
	k.UsualPlaces = !r.Given(c + "part_places")
	programIn(k, k.Units)
	if !k.DecimalPoint && !r.Given(c+"drop_zeros") {
		k.DropZeros = process.LeadingZeros
	}
	if k.RestartStep > 0 && k.BlockNumbers && k.RestartStep <= k.BlockStep {
		r.Badf(c+"restart_step", "state more than one block takes: 1000", "%d is no more than block_step, %d", k.RestartStep, k.BlockStep)
	}
	if k.LengthOffset == 0 && r.Given(c+"gauge_line") {
		r.Bad(c+"gauge_line", "is given, and no length offset is called", "write length_offset, or leave it out")
	}
	completeHome(r, k)
	control.Storage(r, k)
	control.Stopping(r, k)
	switch {
	case k.OrientedStop && !r.Given(c+"tip_at_stop"):
		r.Bad(c+"oriented_stop", "does not say where the tip points after M19", `write tip_at_stop = "+X" (or "-X", "+Y", "-Y") as seen from the spindle`)
	case !k.OrientedStop && r.Given(c+"tip_at_stop"):
		r.Bad(c+"tip_at_stop", "is given, but the spindle has no oriented stop", "write oriented_stop = true, or leave tip_at_stop out")
	}
}

// completeHome fills in how the slides go home and checks it.
func completeHome(r *keys.Reader, k *process.Control) {
	const word, axes, at = "control.home_word", "control.home_axes", "control.home_at"
	if k.HomeWord == 0 {
		for _, key := range []string{axes, at} {
			if r.Given(key) {
				r.Bad(key, "is given, but no slide goes home", `write home_word = "G28" or "G53", or leave it out`)
			}
		}
		return
	}
	if !r.Given(axes) {
		k.HomeAxes = []process.HomeAxis{process.HomeFeed}
	}
	for i, a := range k.HomeAxes {
		switch {
		case i == 0 && a != process.HomeFeed:
			r.Bad(source.El(axes, 0), a.String()+" goes before the bar is out of the work", `write "feed" first`)
		case slices.Contains(k.HomeAxes[:i], a):
			r.Bad(source.El(axes, i), a.String()+" stands here twice", "name each once")
		}
	}
	switch {
	case k.HomeWord == 28 && r.Given(at):
		r.Bad(at, "is given, and G28 goes to the reference position", `leave it out, or write home_word = "G53"`)
	case k.HomeWord == 53 && !r.Given(at):
		k.HomeAt = make([]qty.Length, len(k.HomeAxes))
	case k.HomeWord == 53 && r.Has(at) && len(k.HomeAt) != len(k.HomeAxes):
		r.Badf(at, "give as many as home_axes", "%d positions for %d slides", len(k.HomeAt), len(k.HomeAxes))
	}
}

// checkGears sees that every speed of the machine can be had in a range of the spindle.
func checkGears(r *keys.Reader, m *process.Machine) {
	gears := m.Control.Gears
	for i, g := range gears {
		for _, h := range gears[:i] {
			if g.Word == h.Word {
				r.Bad(source.El("control.gear", i)+".word", g.Word.String()+" stands here twice", "give each range its own word")
			}
		}
	}
	speeds := m.Speeds.Steps
	if len(speeds) == 0 { // any between: then also wherever a range ends
		speeds = []float64{m.Speeds.Least, m.Speeds.Most}
		for _, g := range gears {
			if after := math.Nextafter(g.Most, math.Inf(1)); after < m.Speeds.Most && after > m.Speeds.Least {
				speeds = append(speeds, after)
			}
		}
	}
	for _, n := range speeds {
		if !slices.ContainsFunc(gears, func(g process.GearRange) bool { return g.Least <= n && n <= g.Most }) {
			r.Bad("control.gear", "holds no range for "+keys.PlainNumber(math.Round(100*n)/100)+" rev/min, a speed of this machine", "let the ranges meet, and cover speeds or speed_range")
			return
		}
	}
}

// checkMachine catches figures that do not belong to one machine.
func checkMachine(r *keys.Reader, m *process.Machine) {
	if r.Has("nose", "quill") && m.Quill >= m.Nose {
		r.Badf("quill", "the quill slides in the nose and must be thinner", "%s is not smaller than the nose, %s", r.Dia(m.Quill), r.Dia(m.Nose))
	}
	if m.CanFeed(process.QuillFeed) && m.QuillTravel == 0 && (r.Has("quill_travel")) {
		r.Bad("feed_by", "names the quill, whose quill_travel is 0", "write quill_travel, or feed by the table alone")
	}
	if r.Has("power", "torque") && m.Speeds.Most > 0 {
		// P = T·ω: below this speed the torque is what is left, above it the power.
		if base := float64(m.Power) / float64(m.Torque) * 60 / (2 * math.Pi); base > m.Speeds.Most {
			r.Badf("torque", "check the units of torque and power",
				"with this torque the power would be reached at %.0f rev/min, above the fastest speed %s", base, keys.PlainNumber(m.Speeds.Most))
		}
	}
	if r.Has("set_dial", "dial_turn") && m.DialTurn > 0 && m.SetDial > 0 && (m.DialTurn%m.SetDial != 0 || m.DialTurn < 4*m.SetDial) {
		r.Badf("dial_turn", "one turn of the dial is a whole number of its graduations, four at least, both on diameter", "%s is %s graduations of %s", r.Len(m.DialTurn), keys.PlainNumber(math.Round(100*float64(m.DialTurn)/float64(m.SetDial))/100), r.Len(m.SetDial))
	}
	seen := map[process.Letter]bool{}
	for i, t := range m.Travels {
		if t.Axis != 0 && seen[t.Axis] {
			r.Bad(source.El("travel", i)+".axis", "axis "+t.Axis.String()+" stands here twice", "give each axis its own letter")
		}
		seen[t.Axis] = true
	}
	if c := m.Control; c != nil {
		if c.OtherSlide != process.OtherUnsaid && !(seen['Z'] && seen['W']) && len(m.Travels) > 0 {
			r.Bad("control.other_slide", "is given, and Z and W are not both among the travels", "list both under travel, or leave it out")
		}
		if c.TableWord != 0 && !seen[c.TableWord] && len(m.Travels) > 0 {
			r.Bad("control.table_word", "axis "+c.TableWord.String()+" is not among the travels", "list it under travel, or leave it out")
		}
		if c.TableWord == 0 && r.Given("control.table_angle") {
			r.Bad("control.table_angle", "is given, and the program leaves the table alone", `write table_word = "B", or leave it out`)
		}
		if len(c.Gears) > 0 && m.Speeds.Most > 0 {
			checkGears(r, m)
		}
		if m.CanFeed(process.TableFeed) && m.CanFeed(process.QuillFeed) && c.FeedAxis == c.QuillAxis && r.Has("control.feed_axis", "control.quill_axis") {
			r.Bad("control.quill_axis", "table and quill both feed as "+c.QuillAxis.String(), `give them different letters: feed_axis = "W", quill_axis = "Z" or the reverse`)
		}
		for _, a := range []struct {
			key  string
			axis process.Letter
			by   process.FeedBy
		}{{"control.feed_axis", c.FeedAxis, process.TableFeed}, {"control.quill_axis", c.QuillAxis, process.QuillFeed}} {
			if m.CanFeed(a.by) && a.axis != 0 && !seen[a.axis] && len(m.Travels) > 0 {
				r.Bad(a.key, "axis "+a.axis.String()+" is not among the travels", "list it under travel, or name the letter that feeds")
			}
		}
	}
}

// idOf is the ID of a file: its name without folders and ending.
func idOf(name string) string {
	name = strings.ReplaceAll(name, `\`, "/")
	return strings.TrimSuffix(path.Base(name), ".toml")
}
