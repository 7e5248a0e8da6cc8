package files

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
)

// Entry is the entry as it stands in a results file: a blank line, the entry,
// its check. Every length carries its unit, so that the entry means the same
// whatever the job is written in later.
func Entry(job *process.Job, m *process.Measured) []byte {
	var b bytes.Buffer
	u := job.Units
	line := func(key, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s = %s\n", key, value)
		}
	}
	text := func(key, s string) {
		if s != "" {
			line(key, tomlText(s))
		}
	}
	size := func(key string, l qty.Length) {
		if l != 0 {
			line(key, exact(u, l))
		}
	}
	fmt.Fprintf(&b, "%s%s\"\n", entryHead, m.ID)
	text("station", job.Stations[m.Station].Name)
	if m.Visit > 0 {
		line("visit", strconv.Itoa(m.Visit))
	}
	line("pass", strconv.Itoa(m.Pass))
	text("kind", string(m.Kind))
	text("revision", m.Revision)
	size("setting", m.Setting.Length())
	size("before", m.Before.Length())
	size("low", m.Low.Length())
	size("high", m.High.Length())
	size("feed", m.Feed)
	if m.Speed > 0 {
		line("speed", field.PlainNumber(float64(m.Speed)))
	}
	text("tooling", m.Tooling)
	text("sweeps", m.Sweeps)
	b.WriteString("size = [\n")
	for _, s := range m.Sizes {
		b.WriteString("  { ")
		if s.Depth >= 0 {
			fmt.Fprintf(&b, "depth = %s, ", exact(u, s.Depth))
		}
		if s.At >= 0 {
			fmt.Fprintf(&b, "at = %s, ", field.PlainNumber(s.At))
		}
		fmt.Fprintf(&b, "diameter = %s },\n", exact(u, s.Diameter.Length()))
	}
	b.WriteString("]\n")
	angles := func(key string, list []float64) {
		if len(list) > 0 {
			var s []string
			for _, a := range list {
				s = append(s, field.PlainNumber(a))
			}
			line(key, "["+strings.Join(s, ", ")+"]")
		}
	}
	angles("marked", m.Marked)
	angles("bare", m.Bare)
	if m.Ra > 0 {
		line("ra", tomlText(field.PlainNumber(m.Ra.Microns())+" µm"))
	}
	text("remark", m.Remark)
	text("by", m.By)
	text("when", m.When)
	sum := entrySum(b.Bytes())
	line("check", tomlText(sum))
	return append([]byte("\n"), b.Bytes()...)
}

// exact prints a length with its unit and every digit that it has, down to a
// millionth of the unit, and never fewer than the usual ones.
func exact(u qty.Unit, l qty.Length) string {
	if u.Of(parseBack(u.Decimals(l, 6))) != l {
		u = qty.Metric // whole nanometres: exact
	}
	s, usual := u.Decimals(l, 6), u.Format(l)
	for len(s) > len(usual) && strings.HasSuffix(s, "0") {
		s = s[:len(s)-1]
	}
	return tomlText(s + " " + u.String())
}

func parseBack(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}

// tomlText is a text as TOML writes it. Controls never reach it: the reader
// refuses them, and an entry is read back before it is written.
func tomlText(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`, "\t", `\t`).Replace(s) + `"`
}
