package files

import (
	"errors"
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
		if data, err = withLine(data, key, strings.TrimSpace(value)); err != nil {
			return nil, fmt.Errorf("--set %s: %w", strconv.Quote(source.Show(line)), err)
		}
		if !strings.Contains(key, ".") && key != "name" {
			if data, err = withLine(data, "source."+key, `"the name plate"`); err != nil {
				return nil, err
			}
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

// withLine puts a value in place of the one that a key has in a machine file, with the
// remark above it, which was of the old value; or adds the key to its table.
func withLine(data []byte, key, value string) ([]byte, error) {
	places, err := keys.Places("", data)
	if err != nil {
		return nil, errors.New(place.ReplaceAllString(err.Error(), ""))
	}
	lines := strings.SplitAfter(string(data), "\n")
	table, last := "", key
	if i := strings.LastIndexByte(key, '.'); i >= 0 {
		table, last = key[:i], key[i+1:]
	}
	text := last + " = " + value + "\n"
	at, stated := places[key]
	switch head, ok := places[table]; {
	case stated: // the value may go over several lines
		begin, end, depth := at.Line-1, at.Line-1, 0
		for ; end < len(lines); end++ {
			code, _, _ := strings.Cut(lines[end], "#")
			depth += strings.Count(code, "[") + strings.Count(code, "{") - strings.Count(code, "]") - strings.Count(code, "}")
			if depth <= 0 {
				break
			}
		}
		for begin > places["units"].Line && strings.HasPrefix(lines[begin-1], "#") {
			begin--
		}
		lines = slices.Replace(lines, begin, min(end+1, len(lines)), text)
	case table == "":
		lines = slices.Insert(lines, places["units"].Line, text)
	case ok:
		lines = slices.Insert(lines, head.Line, text)
	default:
		return nil, fmt.Errorf("the file has no [%s]; begin with a machine that has one", source.Show(table))
	}
	return []byte(strings.Join(lines, "")), nil
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
