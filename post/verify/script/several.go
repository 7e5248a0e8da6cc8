package script

import (
	"bytes"
	"regexp"
	"slices"
	"strconv"

	"borewright/process/plan"
)

// owordRE is a line that begins a program of a file of several.
var owordRE = regexp.MustCompile(`^[\x00\x7f \t]*(?:[Nn] ?[0-9]+ ?)?[Oo] ?0*([0-9]{1,9})(?:[^0-9.]|$)`)

// lines goes through a file line by line: each with its end, and the number of the program
// that it belongs to, -1 in front of the first.
func lines(file []byte, do func(line []byte, number int)) {
	number := -1
	for len(file) > 0 {
		n := bytes.IndexAny(file, "\r\n") + 1
		if n == 0 {
			n = len(file)
		}
		if m := owordRE.FindSubmatch(bytes.TrimRight(file[:n], "\r\n")); m != nil {
			number, _ = strconv.Atoi(string(m[1]))
		}
		do(file[:n], number)
		file = file[n:]
	}
}

// Numbers are the O numbers of the programs of a file, each once, in their order.
func Numbers(file []byte) (all []int) {
	lines(file, func(_ []byte, number int) {
		if number >= 0 && !slices.Contains(all, number) && len(all) < Most {
			all = append(all, number)
		}
	})
	return all
}

// Alone is a file of several programs with the lines of all others empty, so that every line
// keeps its number.
func Alone(file []byte, number int) []byte {
	out := make([]byte, 0, len(file))
	lines(file, func(line []byte, n int) {
		if text := bytes.TrimLeft(line, "\x00\x7f \t"); n != number && n >= 0 && (len(text) == 0 || text[0] != '%') {
			line = line[len(bytes.TrimRight(line, "\r\n")):]
		}
		out = append(out, line...)
	})
	return out
}

// Several reports that a file may hold the programs of all visits of the plan, as its
// control stores them, and lists the O numbers in it that are those of no visit.
func Several(program []byte, p *plan.Plan) (several bool, strange []int) {
	if p == nil || p.Job == nil || p.Job.Machine == nil || p.Job.Machine.Control == nil || !p.Job.Machine.Control.OneFile {
		return false, nil
	}
	strange = Numbers(program)
	several = len(strange) > 0
	for b := range p.Bores {
		for v := range p.Bores[b].Visits {
			if t := p.Bores[b].Visits[v].Together; len(t) > 0 && t[0] != p.Bores[b].Station.Name {
				continue // cut in the program of another
			}
			strange = slices.DeleteFunc(strange, func(n int) bool { return n == NumberOf(p, b, v) })
		}
	}
	return several, strange
}
