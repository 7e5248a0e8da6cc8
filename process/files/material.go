package files

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/qty"
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
	for _, c := range process.CutterClasses() {
		b, ok := m.Speeds[c]
		if !ok {
			continue
		}
		at := "speed." + c
		for key, band := range map[string][2]qty.CuttingSpeed{at + ".rough": b.Rough, at + ".finish": b.Finish} {
			if r.Has(key) && band[0] > band[1] {
				r.Bad(key, "the least is above the most", "write the least first")
			}
		}
	}
	if len(m.Speeds) == 0 && r.Given("speed") {
		r.Bad("speed", "holds no cutting speeds", "give "+source.Quoted(process.CutterClasses()))
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return m, nil
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
	damping(r, "damping", m.Damping)
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
