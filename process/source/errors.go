package source

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Problem is one mistake in one file, at its place.
type Problem struct {
	File string
	Pos
	Key     string // key path as in "station[1].from", lists from 0, or "" for the file as a whole
	What    string // what is wrong, with what was found
	Allowed string // what would be right
}

// Error is the problem on one line: file:line:col: key: what is wrong; what
// would be right.
func (p Problem) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: ", p.File, p.Line, p.Col)
	if p.Key != "" {
		b.WriteString(Counted(p.Key) + ": ")
	}
	b.WriteString(p.What)
	if p.Allowed != "" {
		b.WriteString("; " + p.Allowed)
	}
	return b.String()
}

var index = regexp.MustCompile(`\[([0-9]+)\]`)

// Counted is a key path as people count, its lists from 1: "station[1].from" of the
// first station, which the path itself calls station[0].
func Counted(key string) string {
	return index.ReplaceAllStringFunc(key, func(s string) string {
		n, err := strconv.Atoi(s[1 : len(s)-1])
		if err != nil {
			return s
		}
		return "[" + strconv.Itoa(n+1) + "]"
	})
}

// Errors are all the problems of a job and of the files it names, in the order
// of the lines: the job file first, then the others by name.
type Errors []Problem

// Error is one problem a line.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, p := range e {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Most is how many problems are shown. A file with more has one cause, which
// stands among the first.
const Most = 200

// Problems collects what is found wrong in one file.
type Problems struct {
	File  string // its name, for messages
	Found Errors
}

// Add notes a problem.
func (p *Problems) Add(at Pos, key, what, allowed string) {
	p.Found = append(p.Found, Problem{File: p.File, Pos: at, Key: Show(key), What: what, Allowed: allowed})
}

// Err gives the sorted problems as an error, or nil. The interface is nil when
// there are none.
func (p *Problems) Err() error {
	if len(p.Found) == 0 {
		return nil
	}
	slices.SortStableFunc(p.Found, func(a, b Problem) int {
		return cmp.Or(
			rank(a.File != p.File)-rank(b.File != p.File),
			cmp.Compare(a.File, b.File),
			cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col),
		)
	})
	if more := len(p.Found) - Most; more > 0 {
		first := p.Found[Most]
		p.Found = append(p.Found[:Most:Most], Problem{File: first.File, Pos: first.Pos,
			What: fmt.Sprintf("from here on %d more problems are not shown", more), Allowed: "mend these first"})
	}
	return p.Found
}

func rank(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Show makes text from a file fit to print: clean, and not endless.
func Show(s string) string { return Clip(s, 80) }

// Clip is Show with a length of its own, in characters.
func Clip(s string, most int) string {
	s = strings.Map(func(r rune) rune {
		if Unprintable(r) {
			return '·'
		}
		return r
	}, s)
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most-1]) + "…"
	}
	return s
}

// Advice parts the message of another package, "what is wrong; what to do",
// and falls back on its own advice where the message gives none.
func Advice(err error, otherwise string) (what, allowed string) {
	what, allowed, found := strings.Cut(Clip(err.Error(), 400), "; ")
	if !found {
		allowed = otherwise
	}
	return what, allowed
}

// Nearest is the candidate closest to what was written, or "" when none is
// near enough to be meant: of a short word half must be right.
func Nearest(written string, candidates []string) string {
	w := []rune(strings.ToLower(written))
	if len(w) > 40 {
		return ""
	}
	best, at := "", min(len(w)/3+2, len(w)/2+1)
	for _, c := range candidates {
		if d := Distance(w, []rune(strings.ToLower(c))); d < at {
			best, at = c, d
		}
	}
	return best
}

// Distance counts the letters to insert, remove, change or swap with their
// neighbour to turn a into b (optimal string alignment).
func Distance(a, b []rune) int {
	prev2, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			change := prev[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			cur[j] = min(change, prev[j]+1, cur[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}

// CountOf prints a number of things: "1 value", "3 values".
func CountOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// Adopt adds the problems of a file that this one names.
func (p *Problems) Adopt(more Errors) { p.Found = append(p.Found, more...) }

// Pos is a place in a file; lines and columns count from 1.
type Pos struct{ Line, Col int }

// FileName is the name of a job file as printed: never empty, never with
// controls.
func FileName(name string) string {
	if name == "" {
		return "job.toml"
	}
	return Show(name)
}

// Where is the place of a key path, or of the nearest table around it that the
// file has.
func Where(at map[string]Pos, path string) Pos {
	for path != "" {
		if p, ok := at[path]; ok {
			return p
		}
		i := strings.LastIndexAny(path, ".[")
		if i < 0 {
			break
		}
		path = path[:i]
	}
	return Pos{1, 1}
}

// Quoted lists words in quotes, the last behind an or.
func Quoted(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = strconv.Quote(w)
	}
	if len(q) < 2 {
		return strings.Join(q, "")
	}
	return strings.Join(q[:len(q)-1], ", ") + " or " + q[len(q)-1]
}

// El is the path of a list element.
func El(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }
