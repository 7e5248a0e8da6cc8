package process

import (
	"cmp"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// What a material is, in a comparison.
const (
	BarOf  fact.Kind = "material.bar"  // name, E, Poisson's ratio, density, bending stress allowed, reach, damping least and most
	EdgeOf fact.Kind = "material.edge" // name, class, factor on the force, rounding, least chip over it, rake
)

// Material is a work material: how it cuts and how it springs.
type Material struct {
	ID, Name    string
	Group       string               // ISO 513 letter: P, M, K, N
	Kc11        float64              // specific cutting force at h = b = 1 mm, N/mm² (Kienzle)
	Mc          float64              // Kienzle exponent
	ThrustRatio float64              // thrust normal to the edge over cutting force at h = 1 mm
	ThrustFall  float64              // exponent: ratio = ThrustRatio·h^(−ThrustFall)
	Rake0       float64              // rake at which Kc11 was measured, degrees
	E, Nu       float64              // MPa, –
	Rm, Re      float64              // tensile and yield (proof) strength, MPa
	Brittle     bool                 // no yield: judged by Rm
	Alpha       float64              // 1/K
	Rho         float64              // kg/m³
	RaFactor    float64              // measured over geometric roughness, fresh edge
	Hardness    float64              // Brinell, HB
	Flank       float64              // pressure on a flank land, normal to the edge, N/mm²
	Indentation [2]float64           // specific indentation force, least and most, N/mm³
	Speeds      map[string]SpeedBand // by cutter material class: "hss", "carbide", "carbide-coated"
	HeatMost    float64              // °C that the part may be heated to for assembly
	Sources     map[string]string    // figure -> source and how it was checked
}

// Compared is the material by name.
func (m *Material) Compared() field.Value { return field.TextOf(m.Called()) }

// CutDry reports that the metal is cut without coolant by a cutter.
func (m *Material) CutDry(c *CutterMaterial) bool {
	return m != nil && c != nil && m.Speeds[c.Class].Dry
}

// Called is what a material is called, "" where none is stated.
func (m *Material) Called() string {
	if m == nil {
		return ""
	}
	return cmp.Or(m.Name, m.ID)
}

// Describe says what the keys of a material file are.
func (m *Material) Describe(d *field.Desc) {
	d.Units(nil, "units").Default("mm").Example(`"in"|"mm"`).Says("in: bare cutting speeds are in ft/min; all other figures are SI as stated")
	d.Text(&m.Name, "name").Need().Example(`"Gray iron, 180 to 220 HB"`).Says("what it is called")
	d.Choice(&m.Group, "group", "P", "M", "K", "N", "S", "H").Need().Example(`"K"`).Says("letter of ISO 513").
		Weighs(SpoilsSetting, "group")
	d.Number(&m.Kc11, "kc11", "N/mm²").Need().Span("200..6000").Example("1160").Says("specific cutting force at h = b = 1 mm (Kienzle)").
		Weighs(SpoilsSetting, "kc1.1")
	d.Number(&m.Mc, "mc", "").Need().Span("0..0.6").Example("0.26").Says("its exponent: kc = kc11·h^(−mc)").
		Weighs(SpoilsSetting, "mc")
	d.Number(&m.ThrustRatio, "thrust_ratio", "").Need().Span(">0..2").Example("0.22").Says("thrust normal to the edge over cutting force at h = 1 mm").
		Weighs(SpoilsSetting, "thrust ratio")
	d.Number(&m.ThrustFall, "thrust_fall", "").Need().Span("0..0.8").Example("0.40").Says("its exponent: ratio = thrust_ratio·h^(−thrust_fall)").
		Weighs(SpoilsSetting, "thrust exponent")
	d.Number(&m.Rake0, "rake0", "°").Need().Span("-20..35").Example("2").Says("rake at which kc11 was measured").
		Weighs(SpoilsSetting, "rake of kc1.1")
	d.Number(&m.E, "elasticity", "GPa").Times(1000).Need().Span("10..700").Example("105").Says("modulus of elasticity").
		Weighs(SpoilsFit, "E").As(qty.KindStress)
	d.Number(&m.Nu, "poisson", "").Need().Span("0.1..0.49").Example("0.26").Says("Poisson's ratio").
		Weighs(SpoilsFit, "Poisson's ratio")
	d.Number(&m.Rm, "tensile", "MPa").Need().Span("50..3000").Example("250").Says("tensile strength").
		Weighs(SpoilsFit, "tensile strength")
	d.Number(&m.Re, "yield", "MPa").Need().Span("20..3000").Example("165").Says("yield or 0.1–0.2 % proof strength").
		Weighs(SpoilsFit, "yield strength")
	d.Flag(&m.Brittle, "brittle").Default("false").Example("true").Says("it breaks without yielding: judged by tensile strength").
		Weighs(SpoilsFit, "judged by").YesNo("tensile strength", "yield")
	d.Number(&m.Alpha, "expansion", "µm/m·K").Times(1e-6).Need().Span("1..40").Example("11").Says("growth by heat").
		Weighs(SpoilsFit, "expansion")
	d.Number(&m.Rho, "density", "kg/m³").Need().Span("1000..20000").Example("7200").Says("density").
		Weighs(SpoilsFit, "density")
	d.Number(&m.RaFactor, "ra_factor", "").Need().Span("1..5").Example("1.6").Says("roughness measured over roughness by geometry, fresh edge").
		Weighs(SpoilsSize, "Ra factor")
	d.Number(&m.Hardness, "hardness", "HB").Otherwise("tensile / 3.4; 200 for iron (group K)").Span("20..700").Example("200").Says("Brinell hardness").
		Weighs(SpoilsSetting, "hardness")
	d.Number(&m.Flank, "flank_pressure", "N/mm²").Otherwise("4.45 × hardness").Span("0..10000").Example("890").
		Says("force of a worn flank land on the work, a square millimetre of land").
		Weighs(SpoilsSetting, "pressure on the flank")
	d.NumberPair(&m.Indentation, "indentation", "N/mm³").Otherwise("230 and 2300 × hardness").Span("1000..3000000").Rising().Example("[46000, 460000]").
		Says("specific indentation force, least and most: how much a flank land that rubs on the wave damps it").
		WeighEnds(SpoilsFeed, "indentation force, least", "indentation force, most")
	d.Number(&m.HeatMost, "heat_most", "°C").Need().Span("40..500").Example("200").Says("to what the part may be heated for assembly").
		Weighs(SpoilsFit, "heated to, most")
	d.Sources(&m.Sources, "source").Example(`{ kc11 = "test cuts, two feeds" }`).Says("where the figures come from: all, or by key")
	d.Group("speed", func(d *field.Desc) {
		for _, class := range CutterClasses() {
			field.InMap(d, &m.Speeds, class, class).Example("{ rough = [60, 80], finish = [100, 115] }|{ rough = [18, 25], finish = [30, 35] }").
				Says("cutting speeds for "+class).Weighs(SpoilsFeed, class).NoComma()
		}
	}).Need().Example("{ hss = { rough = [18, 25], finish = [30, 35] } }").Says("cutting speeds by class of cutter")
	d.Worked("name of the file", &m.ID)
}

// SpeedBand is the cutting speed range for roughing and finishing, m/min.
type SpeedBand struct {
	Rough, Finish [2]qty.CuttingSpeed
	Wear          [2]float64 // of the flank, least and most, mm a metre cut
	RaLeast       float64    // Ra that a bored surface does not go below, mm; 0: none
	Dry           bool       // cut without coolant
	Source        string
}

// Describe says what the keys of the cutting speeds of a class of cutter are.
func (b *SpeedBand) Describe(d *field.Desc) {
	d.SpeedPair(&b.Rough, "rough").Need().Rising().Span("3..6000|1..2000").Example("[60, 80]|[18, 25]").Says("least and most for roughing").
		WeighEnds(SpoilsFeed, "roughing, least", "roughing, most").ZeroIsNone()
	d.SpeedPair(&b.Finish, "finish").Need().Rising().Span("3..6000|1..2000").Example("[100, 115]|[30, 35]").Says("least and most for finishing").
		WeighEnds(SpoilsFeed, "finishing, least", "finishing, most").ZeroIsNone()
	d.NumberPair(&b.Wear, "wear", "µm/km").Times(1e-6).Otherwise("usual for the class of cutter").Span("0..20000").Rising().Example("[50, 300]").
		Says("how much the flank wears in a thousand metres of cut, least and most").
		WeighEnds(SpoilsSetting, "wear, least", "wear, most")
	d.Number(&b.RaLeast, "ra_least", "µm").Times(1e-3).Default("0").Span("0..50").Example("0.8").
		Says("the least Ra that can be bored, however fine the feed, where the metal tears: graphite out of iron; 0: none").
		Weighs(SpoilsSize, "least Ra")
	d.Flag(&b.Dry, "dry").Default("false").Example("true").Says("cut dry with this cutter: a program that turns coolant on leaves it off").
		Weighs(SpoilsSetting, "coolant").YesNo("dry", "wet")
	d.Text(&b.Source, "source").Example(`"shop table"`).Says("where they come from")
}

// CutterMaterial is what the edge is made of.
type CutterMaterial struct {
	ID, Name string
	Class    string     // key into Material.Speeds
	Force    float64    // factor on cutting force, carbide = 1
	Edge     qty.Length // usual edge radius
	MinChip  float64    // least chip thickness over edge radius
	Rake     float64    // usual rake, degrees
	Source   string
}

// Compared is the material with its figures.
func (c *CutterMaterial) Compared() field.Value {
	return field.FactOf(fact.New(EdgeOf, fact.Name(cmp.Or(c.Name, c.ID)), fact.Name(c.Class), fact.Figure(qty.KindNumber.Of(c.Force)),
		fact.Figure(qty.KindEdge.Of(c.Edge.Microns())), fact.Figure(qty.KindNumber.Of(c.MinChip)), fact.Figure(qty.KindAngle.Of(c.Rake))), false)
}

// Describe says what the keys of a cutter material file are.
func (c *CutterMaterial) Describe(d *field.Desc) {
	d.Units(nil, "units").Default("mm").Example(`"in"|"mm"`).Says("what bare lengths in this file are in")
	d.Text(&c.Name, "name").Need().Example(`"High-speed steel, ground"`).Says("what it is called")
	d.Choice(&c.Class, "class", CutterClasses()...).Need().Example(`"hss"`).Says("the class whose cutting speeds it takes")
	d.Number(&c.Force, "force", "").Need().Span("0.5..2").Example("1.2").Says("factor on cutting force; carbide is 1")
	d.Length(&c.Edge, "edge").Need().Span(">0..0.01|>0..0.25").Example("0.0003|0.008").Says("usual rounding of the edge")
	d.Number(&c.MinChip, "min_chip", "").Need().Span(">0..2").Example("0.3").Says("thinnest chip it cuts, over the rounding of the edge")
	d.Number(&c.Rake, "rake", "°").Need().Span("-20..35").Example("8").Says("usual rake")
	d.Remarks(&c.Source, "source").Example(`{ all = "from memory" }`).Says("where the figures come from: all, or by key")
	d.Worked("name of the file", &c.ID)
}

// BarMaterial is what a bar is made of.
type BarMaterial struct {
	ID      string     // "steel", "tungsten-alloy", "carbide"
	Name    string     // as printed
	E       float64    // modulus of elasticity, MPa
	Nu      float64    // Poisson's ratio
	Rho     float64    // density, kg/m³
	Allowed float64    // bending stress allowed in service, MPa
	Reach   float64    // overhang over diameter the trade accepts, as a caution
	Damping [2]float64 // damping ratio of the material itself, least and most
	Source  string
}

// Compared is the material with its figures.
func (b *BarMaterial) Compared() field.Value {
	return field.FactOf(fact.New(BarOf, fact.Name(cmp.Or(b.Name, b.ID)), fact.Figure(qty.KindStress.Of(b.E)), fact.Figure(qty.KindNumber.Of(b.Nu)),
		fact.Figure(qty.KindDensity.Of(b.Rho)), fact.Figure(qty.KindStress.Of(b.Allowed)), fact.Figure(qty.KindNumber.Of(b.Reach)),
		fact.Figure(qty.KindNumber.Of(b.Damping[0])), fact.Figure(qty.KindNumber.Of(b.Damping[1]))), false)
}

// Describe says what the keys of a bar material file are.
func (b *BarMaterial) Describe(d *field.Desc) {
	d.Text(&b.Name, "name").Need().Example(`"Alloy steel, hardened"`).Says("what it is called")
	d.Number(&b.E, "elasticity", "GPa").Times(1000).Need().Span("50..800").Example("207").Says("modulus of elasticity")
	d.Number(&b.Nu, "poisson", "").Need().Span("0.1..0.49").Example("0.29").Says("Poisson's ratio")
	d.Number(&b.Rho, "density", "kg/m³").Need().Span("1000..20000").Example("7850").Says("density")
	d.Number(&b.Allowed, "allowed", "MPa").Need().Span("10..1500").Example("250").Says("bending stress allowed in service")
	d.Number(&b.Reach, "reach", "").Need().Span("1..15").Example("4").Says("overhang over diameter that the trade accepts")
	d.NumberPair(&b.Damping, "damping", "").Otherwise("that of steel at low stress, 0.0002 to 0.001, from memory").Span(">0..0.2").Rising().Example("[0.0002, 0.001]").
		Says("damping ratio of the material itself, least and most")
	d.Remarks(&b.Source, "source").Example(`{ all = "works certificate" }`).Says("where the figures come from: all, or by key")
	d.Worked("name of the file", &b.ID)
}

// CutterClasses are the classes that speeds are given for.
func CutterClasses() []string { return []string{"hss", "carbide", "carbide-coated"} }
