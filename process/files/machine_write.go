package files

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"borewright/process/field/keys"
	"borewright/process/source"
)

// MachineFile is the file of a built-in machine; false when there is none of
// that ID.
func MachineFile(id string) ([]byte, bool) {
	if !slices.Contains(builtInIDs("machines"), id) {
		return nil, false
	}
	data, err := catalog.ReadFile(path.Join("catalog", "machines", id+".toml"))
	return data, err == nil
}

// Learned is what a shop's own cuts say of a machine.
type Learned struct {
	Root   float64 // stiffness of the nose over what the file states; 1: not told
	Force  float64 // cutting force over what is predicted
	Remark string  // where the figures come from, a line
}

// WithLearned is a machine file with what was learned put in place of what it
// stated: radial and tilt times Root, the force factor times Force. All else,
// remarks included, stays as it was. The result has been read back.
func WithLearned(name string, data []byte, l Learned) ([]byte, error) {
	m, err := Machine(name, data)
	if err != nil {
		return nil, err
	}
	places, err := keys.Places(name, data)
	if err != nil {
		return nil, err
	}
	lines := strings.SplitAfter(string(data), "\n")
	put := func(key, value string) bool {
		at, ok := places[key]
		if !ok || at.Line > len(lines) {
			return false
		}
		last := key[strings.LastIndexByte(key, '.')+1:]
		lines[at.Line-1] = last + " = " + value + "\n"
		return true
	}
	after := func(key, line string) {
		if at, ok := places[key]; ok {
			lines[at.Line-1] += line
		}
	}
	if m.ForceFactor == 0 {
		m.ForceFactor = 1
	}
	force := fmt.Sprintf("%.3f", m.ForceFactor*l.Force)
	if !put("force_factor", force) {
		after("tilt", "force_factor = "+force+"\n")
	}
	learned := []string{"force_factor"}
	if l.Root != 1 {
		learned = append(learned, "radial", "tilt")
		for key, v := range map[string]float64{"radial": m.Radial * l.Root, "tilt": m.Tilt * l.Root} {
			if at, ok := places[key]; ok {
				// A line that was added behind tilt must not be lost.
				_, more, _ := strings.Cut(lines[at.Line-1], "\n")
				lines[at.Line-1] = fmt.Sprintf("%s = %.3g\n%s", key, v, more)
			}
		}
	}
	put("name", keys.TOMLText(source.Clip(m.Name+", as its own cuts show it", source.LongestText)))
	for _, key := range learned {
		if !put("source."+key, keys.TOMLText(l.Remark)) {
			after("source", key+" = "+keys.TOMLText(l.Remark)+"\n")
		}
	}
	out := []byte(strings.Join(lines, ""))
	if _, err := Machine(name, out); err != nil {
		return nil, fmt.Errorf("the machine file with what was learned does not read: %w", err)
	}
	return out, nil
}
