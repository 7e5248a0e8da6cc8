package ask

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"borewright/process/field/keys"
	"borewright/process/source"
)

var element = regexp.MustCompile(`\[[0-9]+\]`)

// key is the name under which a path is explained.
func (f *form) key(path string) string {
	k := element.ReplaceAllString(path, "")
	if f.under != "" {
		k = f.under + "." + k
	}
	return k
}

// kind is what is written under a path: "length", "list of numbers".
func (f *form) kind(path string) string {
	kind, _, _ := strings.Cut(f.entries[f.key(path)].Type, ",")
	return kind
}

var plain = regexp.MustCompile(`^[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)$`)

// value is an answer as TOML has it.
func (f *form) value(path, s string) string { return TOML(f.kind(path), path, s) }

// TOML is what a person writes for a key as a TOML file has it: by what is written there, as
// explain calls it ("length", "list of numbers"), and the path of the key.
func TOML(kind, path, s string) string {
	if of, list := strings.CutPrefix(kind, "list of "); list {
		parts := strings.FieldsFunc(s, func(r rune) bool { return r == ',' })
		if len(parts) == 1 {
			parts = strings.Fields(parts[0])
		}
		if strings.HasSuffix(path, ".at") {
			return clocks(parts)
		}
		for i, p := range parts {
			parts[i] = single(of, strings.TrimSpace(p))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return single(kind, s)
}

func single(kind, s string) string {
	switch {
	case strings.HasPrefix(kind, "true"):
		switch strings.ToLower(s) {
		case "yes", "y", "true":
			return "true"
		case "no", "n", "false":
			return "false"
		}
	case kind == "word", kind == "words":
		return keys.TOMLText(strings.ToLower(s))
	case strings.HasPrefix(kind, "text"):
	case plain.MatchString(s):
		return number(s)
	}
	return keys.TOMLText(s)
}

// number is a number as TOML has it: with a figure on either side of the point.
func number(s string) string {
	s = strings.TrimPrefix(s, "+")
	sign, s := s[:len(s)-len(strings.TrimPrefix(s, "-"))], strings.TrimPrefix(s, "-")
	whole, part, point := strings.Cut(s, ".")
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if point && part != "" {
		return sign + whole + "." + part
	}
	return sign + whole
}

// clocks are clock positions as TOML has them: hours where all can be hours, else degrees.
// A 0 is no hour, and 12 positions in degrees are rarely all below 13.
func clocks(parts []string) string {
	hours := true
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
		h, _, minutes := strings.Cut(parts[i], ":")
		n, err := strconv.Atoi(h)
		hours = hours && err == nil && (n >= 1 && n <= 12 || minutes)
	}
	for i, p := range parts {
		if d, ok := strings.CutSuffix(p, "°"); ok {
			p = strings.TrimSpace(d)
		}
		if parts[i] = keys.TOMLText(p); !hours && plain.MatchString(p) {
			parts[i] = number(p)
		}
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// flatten is what a file says, by path.
func flatten(path string, v any, out map[string]any) {
	switch x := v.(type) {
	case map[string]any:
		for k, e := range x {
			flatten(source.Join(path, k), e, out)
		}
	case []map[string]any:
		for i, e := range x {
			flatten(source.El(path, i), e, out)
		}
	case []any:
		if len(x) > 0 {
			if _, tables := x[0].(map[string]any); tables {
				for i, e := range x {
					flatten(source.El(path, i), e, out)
				}
				return
			}
		}
		out[path] = x
	default:
		out[path] = v
	}
}

// answer is a value of a file as it would be answered.
func answer(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case bool:
		if x {
			return "yes"
		}
		return "no"
	case float64:
		return keys.PlainNumber(x)
	case []any:
		var parts []string
		between := " "
		for _, e := range x {
			s := answer(e)
			if strings.Contains(s, " ") {
				between = ", "
			}
			parts = append(parts, s)
		}
		if between == ", " && len(parts) == 1 {
			return parts[0] + ","
		}
		return strings.Join(parts, between)
	}
	return fmt.Sprint(v)
}

// The ways to state a size, as a person says them.
var (
	asFit    = regexp.MustCompile(`^(.*[0-9"nm])\s+([A-Za-z]{1,2}[0-9]{1,2})$`)
	asLimits = regexp.MustCompile(`^(.+?)\s+to\s+(.+)$`)
	asPlay   = regexp.MustCompile(`^(.+?)\s+play\s+(\S+)\s+(?:to\s+)?(\S+)$`)
	asBounds = regexp.MustCompile(`^(\S+(?:\s*(?:mm|in))?)\s+([-+]?[0-9.]+)\s*/?\s*([-+]?[0-9.]+)$`)
)

const finishHelp = `The size it must come to, in one of four ways:
    3.625 H7                 nominal size and an ISO 286 hole class
    3.6250 to 3.6264         limits of size
    3.625 +0.0014 0          nominal size, upper and lower deviation
    3.6240 play 0.0005 0.0020   the part that goes in, and least and most clearance
  A figure may carry its unit, as 92mm.`

// finishEdits write a size into the keys that it is stated by, and take the others out.
func finishEdits(path, s string) (all []source.Edit) {
	set := map[string]string{}
	size := func(s string) string { return single("diameter", strings.TrimSpace(s)) }
	if m := asPlay.FindStringSubmatch(s); m != nil {
		set["mating"], set["clearance"] = size(m[1]), "["+size(m[2])+", "+size(m[3])+"]"
	} else if m := asLimits.FindStringSubmatch(s); m != nil {
		set["low"], set["high"] = size(m[1]), size(m[2])
	} else if m := asFit.FindStringSubmatch(s); m != nil {
		set["diameter"], set["fit"] = size(m[1]), keys.TOMLText(m[2])
	} else if m := asBounds.FindStringSubmatch(s); m != nil {
		set["diameter"], set["upper"], set["lower"] = size(m[1]), size(m[2]), size(m[3])
	} else if s != "" {
		set["diameter"] = size(s)
	}
	order := []string{"diameter", "fit", "upper", "lower", "low", "high", "mating", "clearance"}
	for _, k := range order {
		if set[k] != "" {
			all = append(all, source.Edit{Path: path + "." + k, Value: set[k]})
		}
	}
	for _, k := range order {
		if set[k] == "" {
			all = append(all, source.Edit{Path: path + "." + k})
		}
	}
	return all
}

// finishOf is a size in a file as it would be answered.
func finishOf(path string, have map[string]any) string {
	of := func(k string) string { return answer(have[path+"."+k]) }
	switch {
	case of("fit") != "":
		return of("diameter") + " " + of("fit")
	case of("low") != "":
		return of("low") + " to " + of("high")
	case of("mating") != "":
		return of("mating") + " play " + strings.ReplaceAll(of("clearance"), ",", "")
	}
	return of("diameter") + " " + of("upper") + " " + of("lower")
}
