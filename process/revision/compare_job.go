package revision

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"borewright/process"
	"borewright/process/qty"
)

func (c *comparer) jobs(a, b *process.Job) {
	c.on(NoPart).at("the job")
	c.fig(SpoilsSetting, "units", figText(a.Units.String()), figText(b.Units.String()))
	for _, w := range [...][3]string{
		{"number", a.Number, b.Number}, {"revision", a.Revision, b.Revision},
		{"title", a.Title, b.Title}, {"customer", a.Customer, b.Customer},
	} {
		c.fig(SpoilsWords, w[0], figOptText(w[1]), figOptText(w[2]))
	}
	c.sentences(SpoilsWords, "note", a.Notes, b.Notes)
	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return stationName(a, a.Bores[i].Station) == stationName(b, b.Bores[j].Station)
	}) {
		switch {
		case m.b < 0:
			c.on(StationsAndBores).at("bore "+stationName(a, a.Bores[m.a].Station)).fig(SpoilsSize, "the bore", figText("restored"), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at("bore "+stationName(b, b.Bores[m.b].Station)).fig(SpoilsSize, "the bore", figNone(), figText("restored"))
		default:
			c.on(StationsAndBores).at("bore "+stationName(b, b.Bores[m.b].Station)).bore(a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.stations(a.Stations, b.Stations)
	c.on(TheBar).at("the bar").bar(a.Bar, b.Bar)
	c.on(TheCutter).at("the cutter").cutter(a.Cutter, b.Cutter)
	c.on(TheSleeve).at("the sleeve").sleeve(a.Sleeve, b.Sleeve)
	c.on(TheMachine).at("the machine").machine(a.Machine, b.Machine)
	c.on(TheMaterial).at("the work material").material(a.Material, b.Material)
	c.sweeps(a, b)
	c.on(NoPart).at("lining up").lineUp(a.LineUp, b.LineUp)
	c.on(NoPart).at("the shop's bars").shop(a.Shop, b.Shop)
	c.on(TheLimits).at("limits allowed").limits(a.Limits, b.Limits)
}

// stations matches by name, then takes a station of the same depth for a
// renamed one.
func (c *comparer) stations(a, b []process.Station) {
	named := func(s []process.Station, n string) bool {
		return slices.ContainsFunc(s, func(x process.Station) bool { return x.Name == n })
	}
	for _, m := range pairUp(len(a), len(b), func(i, j int) bool {
		return a[i].Name == b[j].Name ||
			a[i].From == b[j].From && a[i].To == b[j].To && !named(b, a[i].Name) && !named(a, b[j].Name)
	}) {
		switch {
		case m.b < 0:
			c.on(StationsAndBores).at("station "+a[m.a].Name).fig(SpoilsReach, "the station", figSize(a[m.a].Diameter), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at("station "+b[m.b].Name).fig(SpoilsReach, "the station", figNone(), figSize(b[m.b].Diameter))
		default:
			c.on(StationsAndBores).at("station " + b[m.b].Name)
			c.fig(SpoilsWords, "name", figText(a[m.a].Name), figText(b[m.b].Name))
			if m.a != m.b {
				c.fig(SpoilsWords, "place in the line", figNumber(float64(m.a+1), ""), figNumber(float64(m.b+1), ""))
			}
			c.station(a[m.a], b[m.b])
		}
	}
}

func (c *comparer) station(a, b process.Station) {
	c.fig(SpoilsFit, "least wall", figOptLength(a.Wall), figOptLength(b.Wall))
	c.fig(SpoilsFit, "most wall", figOptLength(a.WallMost), figOptLength(b.WallMost))
	c.fig(SpoilsReach, "from", figLength(a.From), figLength(b.From))
	c.fig(SpoilsReach, "to", figLength(a.To), figLength(b.To))
	c.fig(SpoilsReach, "diameter", figSize(a.Diameter), figSize(b.Diameter))
	c.fig(SpoilsReach, "far end", figYesNo(a.Blind, "closed", "open"), figYesNo(b.Blind, "closed", "open"))
	c.fig(SpoilsReach, "relief", figOptLength(a.Relief), figOptLength(b.Relief))
	c.fig(SpoilsSize, "swept", figYesNo(a.Swept, "yes", "no"), figYesNo(b.Swept, "yes", "no"))
}

func stationName(j *process.Job, i int) string {
	if i >= 0 && i < len(j.Stations) && j.Stations[i].Name != "" {
		return j.Stations[i].Name
	}
	return fmt.Sprintf("at station %d", i+1)
}

func (c *comparer) bore(a, b process.Bore) {
	c.fig(SpoilsSize, "repair", figText(a.Repair.String()), figText(b.Repair.String()))
	c.fig(SpoilsSize, "nominal size", figOptSize(a.Finish.Nominal), figOptSize(b.Finish.Nominal))
	c.fig(SpoilsSize, "finish, low", figSize(a.Finish.Low), figSize(b.Finish.Low))
	c.fig(SpoilsSize, "finish, high", figSize(a.Finish.High), figSize(b.Finish.High))
	c.fig(SpoilsSize, "fit", figOptText(a.Finish.Fit), figOptText(b.Finish.Fit))
	c.fig(SpoilsSize, "mating size", figOptSize(a.Finish.Mating), figOptSize(b.Finish.Mating))
	c.fig(SpoilsSize, "least clearance", figOptLength(a.Finish.Clearance[0]), figOptLength(b.Finish.Clearance[0]))
	c.fig(SpoilsSize, "most clearance", figOptLength(a.Finish.Clearance[1]), figOptLength(b.Finish.Clearance[1]))
	c.fig(SpoilsSize, "Ra asked for", figRa(a.Ra), figRa(b.Ra))
	c.fig(SpoilsSize, "roundness asked for", figFine(a.Roundness), figFine(b.Roundness))
	c.fig(SpoilsSetting, "old axis off the true one, most", figOptLength(a.Offset), figOptLength(b.Offset))
	c.fig(SpoilsSetting, "witness cut", figYesNo(a.Witness, "yes", "no"), figYesNo(b.Witness, "yes", "no"))
	c.fig(SpoilsSize, "part that goes in, smallest", figOptSize(a.Part[0]), figOptSize(b.Part[0]))
	c.fig(SpoilsSize, "part that goes in, largest", figOptSize(a.Part[1]), figOptSize(b.Part[1]))
	c.fig(SpoilsFit, "part that goes in, made of", figOptText(workName(a.PartOf)), figOptText(workName(b.PartOf)))
	if a.PartOf != nil && b.PartOf != nil && workName(a.PartOf) == workName(b.PartOf) {
		c.fig(SpoilsFit, "part that goes in, expansion", figNumber(perMillion(a.PartOf.Alpha), "µm/m·K"), figNumber(perMillion(b.PartOf.Alpha), "µm/m·K"))
	}
	c.wear(a.Wear, b.Wear)
}

// readings compares one row of readings point by point; a point that only one
// side has shows as such.
func (c *comparer) readings(s Spoils, what string, atA, atB []float64, a, b []qty.Length, diameters bool) {
	point := func(at []float64, l []qty.Length, i int) Figure {
		switch {
		case i >= len(at) || i >= len(l):
			return figNone()
		case diameters:
			return figSize(qty.Diameter(l[i]))
		}
		return figFine(l[i])
	}
	for i := range max(len(atA), len(atB)) {
		name := fmt.Sprintf("%s, point %d", what, i+1)
		if i < len(atA) && i < len(atB) {
			c.fig(s, name+", clock position", figNumber(atA[i], "°"), figNumber(atB[i], "°"))
		}
		c.fig(s, name, point(atA, a, i), point(atB, b, i))
	}
}

func (c *comparer) wear(a, b []process.Reading) {
	for i := range max(len(a), len(b)) {
		var v, w process.Reading
		d, e := figNone(), figNone()
		if i < len(a) {
			v = a[i]
			d = figLength(v.Depth)
		}
		if i < len(b) {
			w = b[i]
			e = figLength(w.Depth)
		}
		what := fmt.Sprintf("wear reading %d", i+1)
		c.fig(SpoilsSetting, what+", depth", d, e)
		c.readings(SpoilsSetting, what+", radius", v.At, w.At, v.Radius, w.Radius, false)
		c.readings(SpoilsSetting, what+", across", v.At, w.At, lengths(v.Across), lengths(w.Across), true)
	}
}

func lengths(d []qty.Diameter) []qty.Length {
	var out []qty.Length
	for _, x := range d {
		out = append(out, x.Length())
	}
	return out
}

func (c *comparer) sweeps(a, b *process.Job) {
	for i := range max(len(a.Sweeps), len(b.Sweeps)) {
		var v, w process.Sweep
		var vn, wn string
		if i < len(a.Sweeps) {
			v = a.Sweeps[i]
			vn = stationName(a, v.Station)
		}
		if i < len(b.Sweeps) {
			w = b.Sweeps[i]
			wn = stationName(b, w.Station)
		}
		c.on(StationsAndBores).at(fmt.Sprintf("sweep %d", i+1))
		c.fig(SpoilsSize, "station", figOptText(vn), figOptText(wn))
		c.fig(SpoilsSize, "depth", figLength(v.Depth), figLength(w.Depth))
		c.fig(SpoilsSize, "runs on", figYesNo(v.Face, "face", "bore"), figYesNo(w.Face, "face", "bore"))
		c.fig(SpoilsSize, "diameter it runs on", figOptSize(v.Diameter), figOptSize(w.Diameter))
		c.fig(SpoilsSize, "a larger reading is", figYesNo(v.Further, "further", "nearer"), figYesNo(w.Further, "further", "nearer"))
		c.fig(SpoilsSize, "stylus", figNumber(v.Stylus, "°"), figNumber(w.Stylus, "°"))
		c.fig(SpoilsSize, "droop of the dial", figFine(v.Droop), figFine(w.Droop))
		c.fig(SpoilsSize, "known out of round", figFine(v.OutOfRound), figFine(w.OutOfRound))
		c.readings(SpoilsSize, "dial", v.At, w.At, v.Dial, w.Dial, false)
	}
}

func (c *comparer) bar(a, b process.Bar) {
	c.fig(SpoilsReach, "name", figOptText(a.Name), figOptText(b.Name))
	c.fig(SpoilsReach, "stickout", figLength(a.Stickout()), figLength(b.Stickout()))
	c.fig(SpoilsReach, "cutter from the nose", figLength(a.CutterAt), figLength(b.CutterAt))
	c.fig(SpoilsReach, "fed by", figText(a.FeedBy.String()), figText(b.FeedBy.String()))
	c.fig(SpoilsReach, "nose to face", figOptLength(a.Standoff), figOptLength(b.Standoff))
	for i := range max(len(a.Steps), len(b.Steps)) {
		var p, q process.Step
		if i < len(a.Steps) {
			p = a.Steps[i]
		}
		if i < len(b.Steps) {
			q = b.Steps[i]
		}
		step := fmt.Sprintf("step %d ", i+1)
		c.fig(SpoilsReach, step+"diameter", figOptSize(p.Diameter), figOptSize(q.Diameter))
		c.fig(SpoilsReach, step+"length", figOptLength(p.Length), figOptLength(q.Length))
		c.fig(SpoilsReach, step+"hole", figOptSize(p.Hole), figOptSize(q.Hole))
		c.fig(SpoilsReach, step+"material", figOptText(barWords(p.Material)), figOptText(barWords(q.Material)))
	}
	var s, t process.Support
	if a.Outboard != nil {
		s = *a.Outboard
	}
	if b.Outboard != nil {
		t = *b.Outboard
	}
	c.fig(SpoilsReach, "outboard support", figYesNo(a.Outboard != nil, "fitted", "none"), figYesNo(b.Outboard != nil, "fitted", "none"))
	c.fig(SpoilsReach, "outboard support from the nose", figOptLength(s.At), figOptLength(t.At))
	c.fig(SpoilsReach, "outboard running clearance", figOptLength(s.Clearance), figOptLength(t.Clearance))
	c.fig(SpoilsReach, "outboard stiffness", figNumber(s.Stiffness, "N/µm"), figNumber(t.Stiffness, "N/µm"))
}

func barWords(m process.BarMaterial) string {
	if m == (process.BarMaterial{}) {
		return ""
	}
	return fmt.Sprintf("%s (E %g MPa, Poisson %g, %g kg/m³, %g MPa allowed, reach %g)", cmp.Or(m.Name, m.ID), m.E, m.Nu, m.Rho, m.Allowed, m.Reach)
}

func (c *comparer) cutter(a, b process.Cutter) {
	c.fig(SpoilsSetting, "material", figOptText(edgeWords(a.Material)), figOptText(edgeWords(b.Material)))
	c.fig(SpoilsSetting, "nose radius", figLength(a.NoseRadius), figLength(b.NoseRadius))
	c.fig(SpoilsSetting, "lead", figNumber(a.Lead, "°"), figNumber(b.Lead, "°"))
	c.fig(SpoilsSetting, "trail", figNumber(a.Trail, "°"), figNumber(b.Trail, "°"))
	c.fig(SpoilsSetting, "rake", figNumber(a.Rake, "°"), figNumber(b.Rake, "°"))
	c.fig(SpoilsSetting, "edge rounding", figFine(a.EdgeRadius), figFine(b.EdgeRadius))
	c.fig(SpoilsReach, "smallest setting", figOptSize(a.Least), figOptSize(b.Least))
	c.fig(SpoilsReach, "largest setting", figOptSize(a.Most), figOptSize(b.Most))
	c.fig(SpoilsReach, "stands out in front of the tip", figLength(a.Ahead), figLength(b.Ahead))
	c.fig(SpoilsReach, "stands out behind the tip", figLength(a.Behind), figLength(b.Behind))
	c.fig(SpoilsFeed, "cutting speed, roughing", figOptSurface(a.SpeedRough), figOptSurface(b.SpeedRough))
	c.fig(SpoilsFeed, "cutting speed, finishing", figOptSurface(a.SpeedFinish), figOptSurface(b.SpeedFinish))
}

func edgeWords(m *process.CutterMaterial) string {
	if m == nil {
		return ""
	}
	return fmt.Sprintf("%s (class %s, force factor %g, edge %g µm, least chip %g, rake %g°)", cmp.Or(m.Name, m.ID), m.Class, m.Force, m.Edge.Microns(), m.MinChip, m.Rake)
}

func (c *comparer) sleeve(a, b *process.Sleeve) {
	var s, t process.Sleeve
	if a != nil {
		s = *a
	}
	if b != nil {
		t = *b
	}
	c.fig(SpoilsFit, "the sleeve", figYesNo(a != nil, "fitted", "none"), figYesNo(b != nil, "fitted", "none"))
	if a != nil && b != nil {
		c.fig(SpoilsFit, "held by", figText(s.Hold.String()), figText(t.Hold.String()))
	}
	c.fig(SpoilsFit, "outside", figOptSize(s.Outside), figOptSize(t.Outside))
	c.fig(SpoilsFit, "fit in the housing", figOptText(s.Fit), figOptText(t.Fit))
	c.fig(SpoilsFit, "gap", figOptLength(s.Gap), figOptLength(t.Gap))
	c.fig(SpoilsFit, "left inside for boring", figOptLength(s.Allowance), figOptLength(t.Allowance))
	c.fig(SpoilsFit, "length", figOptLength(s.Length), figOptLength(t.Length))
	c.sleeveWork(s, t)
	c.material(s.Material, t.Material)
}

// material reports a material by name, and figure by figure where the name
// stands for other figures than it did.
func (c *comparer) material(a, b *process.Material) {
	c.fig(SpoilsSetting, "material", figOptText(workName(a)), figOptText(workName(b)))
	if a == nil || b == nil || workName(a) != workName(b) {
		return
	}
	c.fig(SpoilsSetting, "group", figText(a.Group), figText(b.Group))
	for _, f := range [...]struct {
		s    Spoils
		what string
		a, b float64
		unit string
	}{
		{SpoilsSetting, "kc1.1", a.Kc11, b.Kc11, "N/mm²"}, {SpoilsSetting, "mc", a.Mc, b.Mc, ""},
		{SpoilsSetting, "thrust ratio", a.ThrustRatio, b.ThrustRatio, ""}, {SpoilsSetting, "thrust exponent", a.ThrustFall, b.ThrustFall, ""},
		{SpoilsSetting, "rake of kc1.1", a.Rake0, b.Rake0, "°"}, {SpoilsSize, "Ra factor", a.RaFactor, b.RaFactor, ""},
		{SpoilsFit, "E", a.E, b.E, "MPa"}, {SpoilsFit, "Poisson's ratio", a.Nu, b.Nu, ""},
		{SpoilsFit, "tensile strength", a.Rm, b.Rm, "MPa"}, {SpoilsFit, "yield strength", a.Re, b.Re, "MPa"},
		{SpoilsFit, "expansion", perMillion(a.Alpha), perMillion(b.Alpha), "µm/m·K"}, {SpoilsFit, "density", a.Rho, b.Rho, "kg/m³"},
		{SpoilsFit, "heated to, most", a.HeatMost, b.HeatMost, "°C"},
	} {
		c.fig(f.s, f.what, figNumber(f.a, f.unit), figNumber(f.b, f.unit))
	}
	c.fig(SpoilsFit, "judged by", figYesNo(a.Brittle, "tensile strength", "yield"), figYesNo(b.Brittle, "tensile strength", "yield"))
	for _, class := range slices.Sorted(maps.Keys(union(a.Speeds, b.Speeds))) {
		p, q := a.Speeds[class], b.Speeds[class]
		for i, end := range [...]string{"least", "most"} {
			c.fig(SpoilsFeed, class+" roughing, "+end, figOptSurface(p.Rough[i]), figOptSurface(q.Rough[i]))
			c.fig(SpoilsFeed, class+" finishing, "+end, figOptSurface(p.Finish[i]), figOptSurface(q.Finish[i]))
		}
	}
}

func union(a, b map[string]process.SpeedBand) map[string]process.SpeedBand {
	out := maps.Clone(a)
	if out == nil {
		return b
	}
	maps.Copy(out, b)
	return out
}

func (c *comparer) machine(a, b *process.Machine) {
	var m, n process.Machine
	if a != nil {
		m = *a
	}
	if b != nil {
		n = *b
	}
	c.fig(SpoilsReach, "name", figOptText(cmp.Or(m.Name, m.ID)), figOptText(cmp.Or(n.Name, n.ID)))
	c.fig(SpoilsReach, "listed as", figOptText(m.ID), figOptText(n.ID))
	c.fig(SpoilsReach, "nose", figSize(m.Nose), figSize(n.Nose))
	c.fig(SpoilsReach, "quill", figSize(m.Quill), figSize(n.Quill))
	c.fig(SpoilsReach, "quill travel", figLength(m.QuillTravel), figLength(n.QuillTravel))
	c.fig(SpoilsReach, "feeds by", figText(joined(m.FeedBy)), figText(joined(n.FeedBy)))
	for i := range max(len(m.Travels), len(n.Travels)) {
		var s, t process.Travel
		if i < len(m.Travels) {
			s = m.Travels[i]
		}
		if i < len(n.Travels) {
			t = n.Travels[i]
		}
		axis := fmt.Sprintf("axis %d", i+1)
		c.fig(SpoilsReach, axis, figOptText(s.Axis), figOptText(t.Axis))
		c.fig(SpoilsReach, axis+" travel", figOptLength(s.Travel), figOptLength(t.Travel))
		c.fig(SpoilsWords, axis+" moves", figOptText(s.What), figOptText(t.What))
	}
	c.fig(SpoilsSetting, "factor on cutting force", figNumber(m.ForceFactor, ""), figNumber(n.ForceFactor, ""))
	c.fig(SpoilsSetting, "stiffness at the nose", figNumber(m.Radial, "N/µm"), figNumber(n.Radial, "N/µm"))
	c.fig(SpoilsSetting, "stiffness in tilt", figNumber(m.Tilt, "MN·m/rad"), figNumber(n.Tilt, "MN·m/rad"))
	c.fig(SpoilsSetting, "axis dial", figLength(m.Dial), figLength(n.Dial))
	c.fig(SpoilsSetting, "cutter dial", figLength(m.SetDial), figLength(n.SetDial))
	c.fig(SpoilsFeed, "damping, least", figNumber(m.Damping[0], ""), figNumber(n.Damping[0], ""))
	c.fig(SpoilsFeed, "damping, most", figNumber(m.Damping[1], ""), figNumber(n.Damping[1], ""))
	c.fig(SpoilsFeed, "speeds, rev/min", figText(rangeWords(m.Speeds)), figText(rangeWords(n.Speeds)))
	c.fig(SpoilsFeed, "feeds, mm/rev", figText(rangeWords(m.Feeds)), figText(rangeWords(n.Feeds)))
	c.fig(SpoilsFeed, "power", figNumber(float64(m.Power), "W"), figNumber(float64(n.Power), "W"))
	c.fig(SpoilsFeed, "torque", figNumber(float64(m.Torque), "N·m"), figNumber(float64(n.Torque), "N·m"))
	c.fig(SpoilsSetting, "control", figYesNo(m.Control != nil, "has one", "none: worked by hand"), figYesNo(n.Control != nil, "has one", "none: worked by hand"))
	if m.Control != nil && n.Control != nil {
		c.control(*m.Control, *n.Control)
	}
}

// control reports every property by its field's name in words. All of them
// weigh the same: any one that is wrong makes the control read another number
// than was meant.
func (c *comparer) control(a, b process.Control) {
	v, w := reflect.ValueOf(a), reflect.ValueOf(b)
	for i := range v.NumField() {
		var name strings.Builder
		for j, r := range v.Type().Field(i).Name {
			if unicode.IsUpper(r) && j > 0 {
				name.WriteByte(' ')
			}
			name.WriteRune(unicode.ToLower(r))
		}
		c.fig(SpoilsSetting, "control, "+name.String(), figText(fmt.Sprint(v.Field(i))), figText(fmt.Sprint(w.Field(i))))
	}
}

func joined[T any](list []T) string {
	var s []string
	for _, x := range list {
		s = append(s, fmt.Sprint(x))
	}
	return strings.Join(s, ", ")
}

func rangeWords(r process.Range) string {
	if len(r.Steps) > 0 {
		return joined(r.Steps)
	}
	return fmt.Sprintf("any from %g to %g", r.Least, r.Most)
}

func (c *comparer) limits(a, b process.Limits) {
	c.fig(SpoilsSetting, "spring, roughing", figFine(a.SpringRough), figFine(b.SpringRough))
	c.fig(SpoilsSize, "spring, finishing", figFine(a.SpringFinish), figFine(b.SpringFinish))
	c.fig(SpoilsSetting, "depth of cut", figLength(a.DepthMost), figLength(b.DepthMost))
	c.fig(SpoilsFeed, "feed", figFeed(a.FeedMost), figFeed(b.FeedMost))
	c.fig(SpoilsFeed, "spindle speed", figNumber(float64(a.SpeedMost), "rev/min"), figNumber(float64(b.SpeedMost), "rev/min"))
	c.fig(SpoilsReach, "stickout over diameter", figNumber(a.Overhang, ""), figNumber(b.Overhang, ""))
	c.fig(SpoilsReach, "room for chips", figLength(a.ChipRoom), figLength(b.ChipRoom))
	c.fig(SpoilsSize, "error of the force model", figNumber(100*a.ForceError, "%"), figNumber(100*b.ForceError, "%"))
	c.fig(SpoilsSize, "error of setting", figFine(a.SettingError), figFine(b.SettingError))
	c.fig(SpoilsSize, "error of the gauge", figFine(a.GaugeError), figFine(b.GaugeError))
	c.fig(SpoilsSize, "work against gauge master", figNumber(a.Temperature, "K"), figNumber(b.Temperature, "K"))
	c.fig(SpoilsSetting, "passes, most", figNumber(float64(a.PassesMost), ""), figNumber(float64(b.PassesMost), ""))
	c.fig(SpoilsFeed, "time at a hold point", figNumber(a.HoldMinutes, "min"), figNumber(b.HoldMinutes, "min"))
}

// perMillion is an expansion, 1/K, in millionths, to what a material file states
// of it.
func perMillion(alpha float64) float64 { return math.Round(alpha*1e6*1000) / 1000 }
