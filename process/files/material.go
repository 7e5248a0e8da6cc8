package files

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// Material reads a work material file. The error, if any, is of type source.Errors.
func Material(name string, data []byte) (*process.Material, error) {
	m := &process.Material{ID: idOf(name), Speeds: map[string]process.SpeedBand{}}
	r, err := keys.Read(name, "material file", data, m)
	if err != nil {
		return nil, err
	}
	if r.Has("tensile", "yield") && m.Re > m.Rm {
		r.Badf("yield", "yield cannot be above tensile", "%s MPa is above the tensile strength %s MPa", keys.PlainNumber(m.Re), keys.PlainNumber(m.Rm))
	}
	if len(m.Speeds) == 0 && r.Given("speed") {
		r.Bad("speed", "holds no cutting speeds", "give "+source.Quoted(process.CutterClasses()))
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	fillWear(m, r.Given)
	return m, nil
}

// fillWear puts in what was left out of how the metal meets a worn edge.
func fillWear(m *process.Material, given func(key string) bool) {
	if !given("hardness") {
		// Tensile strength over hardness is 3.3 to 3.6 N/mm² a unit in steel
		// (conversion tables, from memory) and near it in bronze and aluminum;
		// iron breaks before it shows its hardness.
		m.Hardness = m.Rm / 3.4
		if m.Group == "K" {
			m.Hardness = 200
		}
	}
	if !given("flank_pressure") {
		m.Flank = flankPerHB * m.Hardness
	}
	if !given("indentation") {
		m.Indentation = [2]float64{indentPerHB[0] * m.Hardness, indentPerHB[1] * m.Hardness}
	}
	for class, b := range m.Speeds {
		if !given("speed." + class + ".wear") {
			b.Wear = usualWear[class]
			m.Speeds[class] = b
		}
	}
}

// flankPerHB is the pressure on a flank land over Brinell hardness: 890 N/mm² at
// 200 (worn edges in finish turning of annealed hot-work steel, Canal & Borille
// 2022: 833 and 953 N/mm² at a land of 0.3 mm, 430 and 880 at 0.1 mm). That it
// goes as hardness in other metals is an assumption of contact mechanics.
const flankPerHB = 4.45

// indentPerHB is the specific indentation force over Brinell hardness, least and
// most: of carbon steel of 180 HB the literature has 4.1·10⁴ N/mm³ (Wu, Trans. ASME
// J. Eng. Ind. 111, 1989; 3 to 5·10⁴ after Budak & Tunc 2010) and 4.1·10⁵ (Shawky &
// Elbestawi 1997; Chiou & Liang 1998), all from memory. No value is known for
// iron and bronze: that it goes as hardness there is an assumption.
var indentPerHB = [2]float64{230, 2300}

// usualWear is how fast a flank wears at the speeds of the table, mm a metre, least
// and most: from tool lives of 15 minutes for inserts and 60 for high-speed steel
// to a land of 0.3 mm (ISO 3685; Taylor's law as textbooks print it), which is
// 0.1 to 0.2 mm a kilometre, and what hard or easy metal makes of it. From memory.
var usualWear = map[string][2]float64{
	"hss": {0.05e-3, 0.3e-3}, "carbide": {0.03e-3, 0.2e-3}, "carbide-coated": {0.02e-3, 0.15e-3},
}

// CutterMaterial reads a cutter material file. The error, if any, is of
// type Errors.
func CutterMaterial(name string, data []byte) (*process.CutterMaterial, error) {
	return readWhole(name, "cutter material file", data, &process.CutterMaterial{ID: idOf(name)})
}

// BarMaterial reads a bar material file. The error, if any, is of type
// Errors.
func BarMaterial(name string, data []byte) (*process.BarMaterial, error) {
	m := &process.BarMaterial{ID: idOf(name)}
	r, err := keys.Read(name, "bar material file", data, m)
	if err != nil {
		return nil, err
	}
	if !r.Given("damping") {
		m.Damping = steelDamping
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return m, nil
}

// steelDamping is the damping ratio of wrought steel at low stress (handbooks of
// damping: Lazan; Beards; from memory).
var steelDamping = [2]float64{0.0002, 0.001}

// readWhole reads a file that needs no more than the checks of its description.
func readWhole[P interface {
	*T
	field.Described
}, T any](name, what string, data []byte, x P) (P, error) {
	r, err := keys.Read(name, what, data, x)
	if err == nil {
		err = r.Err()
	}
	if err != nil {
		return nil, err
	}
	return x, nil
}
