// Package plate writes a machine file: a built-in one with the figures of a name plate, or a shop's
// own with what its cuts have taught. All else of the file stays as it was, and the result has been
// read back.
package plate

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/source"
)

// With is the file of a built-in machine with lines put in place of what it states,
// each "key = value" as a machine file has it: the figures of a name plate. A key of a
// table is written with the table, as "control.decimal_point". The result has been read
// back; an error is that of the first line that does not go in.
func With(id string, set []string) ([]byte, error) {
	data, err := files.BuiltIn("machines", id)
	if err != nil {
		return nil, err
	}
	for _, line := range set {
		key, value, ok := strings.Cut(line, "=")
		if key = strings.TrimSpace(key); !ok || key == "" || strings.ContainsAny(line, "\n\r") {
			return nil, fmt.Errorf("--set %s: write KEY = VALUE, as in 'quill = 4.5'", strconv.Quote(source.Show(line)))
		}
		if data, err = source.Edited(data, Edits(key, strings.TrimSpace(value))...); err != nil {
			return nil, fmt.Errorf("--set %s: %s", strconv.Quote(source.Show(line)), place.ReplaceAllString(err.Error(), ""))
		}
	}
	if _, err := files.Machine("", data); err != nil {
		first, _, _ := strings.Cut(err.Error(), "\n")
		return nil, fmt.Errorf("with --set the file does not hold: %s", place.ReplaceAllString(first, ""))
	}
	return data, nil
}

// place is where in a file a message points.
var place = regexp.MustCompile(`^[^ ]*:[0-9]+:[0-9]+: `)

// Edits put a figure of the name plate into a machine file, and say that it is from
// there.
func Edits(key, value string) []source.Edit {
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
	m, err := files.Machine(name, data)
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
	if _, err := files.Machine(name, out); err != nil {
		return nil, fmt.Errorf("the machine file with what was learned does not read: %w", err)
	}
	return out, nil
}
