package files

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"borewright/process/field/keys"
	"borewright/process/source"
)

// BuiltIn is the file of a built-in thing: a kind, "machines", "materials", "cutters" or
// "bars", and its name there. The error says what there is.
func BuiltIn(kind, id string) ([]byte, error) {
	if !slices.Contains([]string{"machines", "materials", "cutters", "bars"}, kind) {
		return nil, fmt.Errorf("there are no %q; list machines, materials, cutters or bars", source.Show(kind))
	}
	ids := builtInIDs(kind)
	if !slices.Contains(ids, id) {
		return nil, fmt.Errorf("no %s is called %q; there are %s", strings.TrimSuffix(kind, "s"), source.Show(id), strings.Join(ids, ", "))
	}
	return catalog.ReadFile(path.Join("catalog", kind, id+".toml"))
}

// MachineWith is the file of a built-in machine with lines put in place of what it states,
// each "key = value" as a machine file has it: the figures of a name plate. A key of a
// table is written with the table, as "control.decimal_point". The result has been read
// back; an error is that of the first line that does not go in.
func MachineWith(id string, set []string) ([]byte, error) {
	data, err := BuiltIn("machines", id)
	if err != nil {
		return nil, err
	}
	for _, line := range set {
		key, value, ok := strings.Cut(line, "=")
		if key = strings.TrimSpace(key); !ok || key == "" || strings.ContainsAny(line, "\n\r") {
			return nil, fmt.Errorf("--set %s: write KEY = VALUE, as in 'quill = 4.5'", strconv.Quote(source.Show(line)))
		}
		if data, err = source.Edited(data, PlateEdits(key, strings.TrimSpace(value))...); err != nil {
			return nil, fmt.Errorf("--set %s: %s", strconv.Quote(source.Show(line)), place.ReplaceAllString(err.Error(), ""))
		}
	}
	if _, err := Machine("", data); err != nil {
		first, _, _ := strings.Cut(err.Error(), "\n")
		return nil, fmt.Errorf("with --set the file does not hold: %s", place.ReplaceAllString(first, ""))
	}
	return data, nil
}

// place is where in a file a message points.
var place = regexp.MustCompile(`^[^ ]*:[0-9]+:[0-9]+: `)

// PlateEdits put a figure of the name plate into a machine file, and say that it is from
// there.
func PlateEdits(key, value string) []source.Edit {
	edits := []source.Edit{{Path: key, Value: value, Stale: true}}
	if !strings.Contains(key, ".") && key != "name" && key != "units" {
		edits = append(edits, source.Edit{Path: "source." + key, Value: `"the name plate"`})
	}
	return edits
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
	if m.ForceFactor == 0 {
		m.ForceFactor = 1
	}
	edits := []source.Edit{{Path: "name", Value: keys.TOMLText(source.Clip(m.Name+", as its own cuts show it", source.LongestText))}}
	learned := func(key, value string) {
		edits = append(edits, source.Edit{Path: key, Value: value}, source.Edit{Path: "source." + key, Value: keys.TOMLText(l.Remark)})
	}
	learned("force_factor", fmt.Sprintf("%.3f", m.ForceFactor*l.Force))
	if l.Root != 1 {
		learned("radial", fmt.Sprintf("%.3g", m.Radial*l.Root))
		learned("tilt", fmt.Sprintf("%.3g", m.Tilt*l.Root))
	}
	out, err := source.Edited(data, edits...)
	if err != nil {
		return nil, err
	}
	if _, err := Machine(name, out); err != nil {
		return nil, fmt.Errorf("the machine file with what was learned does not read: %w", err)
	}
	return out, nil
}
