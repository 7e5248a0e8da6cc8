package sentence

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/process/qty"
)

// Place is what a remark stands at. Indices are of passes, -1: none.
type Place struct {
	Before int  // at the stop before it, to set the cutter
	After  int  // at the stop after it, to measure
	Any    bool // in the header, or beside moves
}

// Fault is a remark that says something else than the plan, in the lines From to To.
type Fault struct {
	From, To   int
	What, Want string
	Setting    bool // it speaks of what the cutter is set to
}

// Bounds on what a hopeless program can make us look at.
const (
	linesMost = 40   // of one remark
	looseMost = 100  // remarks that are listed as not held
	workMost  = 2000 // remarks that are none of the book's, word for word
)

// Hold holds the remarks of one place. loose are those that nothing in the book is
// like; the first line of each.
func (k *Book) Hold(at Place, said []remark.Remark) (wrong []Fault, loose []remark.Remark) {
	elsewhere := false
	for i := 0; i < len(said); {
		n := 1 // a remark goes on over lines that are indented
		for i+n < len(said) && n < linesMost && strings.HasPrefix(said[i+n].Text, " ") {
			n++
		}
		is, here := k.find(at, said[i:i+n])
		for m := min(8, len(said)-i); !is && m > 0; m-- { // or breaks where somebody broke it
			if is, here = k.find(at, said[i:i+m]); is {
				n = m
			}
		}
		part := said[i : i+n]
		i += n
		switch {
		case is && here:
		case is:
			if !elsewhere {
				elsewhere = true
				wrong = append(wrong, Fault{part[0].Line, part[n-1].Line, script.Elsewhere + ": " + quoted(joined(part)), k.placed(at), remark.Read(part).Set})
			}
		default:
			f, known := k.differs(at, part)
			switch {
			case f != nil:
				wrong = append(wrong, *f)
			case !known && len(loose) < looseMost:
				loose = append(loose, remark.Remark{Line: part[0].Line, Text: joined(part)})
			}
		}
	}
	return wrong, loose
}

func (k *Book) placed(at Place) string {
	switch {
	case at.Before >= 0 && at.Before < len(k.v.Passes):
		return fmt.Sprintf("what is to be done before pass %d", k.v.Passes[at.Before].N)
	case at.After >= 0:
		return fmt.Sprintf("what is to be done after pass %d", k.v.Passes[at.After].N)
	}
	return "remarks of this stop"
}

func joined(part []remark.Remark) string {
	var b strings.Builder
	for _, r := range part {
		b.WriteString(r.Text)
		b.WriteByte(' ')
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// quoted is a piece of text short enough for a finding.
func quoted(s string) string {
	const most = 90
	if len(s) > most {
		s = s[:most-3] + "..."
	}
	return `"` + s + `"`
}

// apart quotes two texts so that the first place where they differ can be read: of long
// ones from a few words before it.
func apart(a, b string) (string, string) {
	const most, before = 90, 40
	same, stop := 0, func(c byte) bool { return c == ',' || c == '.' || c == ';' } // a remark has no semicolons
	for same < min(len(a), len(b)) && (a[same] == b[same] || stop(a[same]) && stop(b[same])) {
		same++
	}
	if max(len(a), len(b)) <= most || same < most/2 {
		return quoted(a), quoted(b)
	}
	from := max(0, same-before)
	for from > 0 && a[from-1] != ' ' {
		from--
	}
	return quoted("..." + a[from:]), quoted("..." + b[from:])
}

// allowed reports that a sentence may stand at the place.
func (s *sentence) allowed(at Place) bool {
	return s.of < 0 || at.Any || s.after && s.of == at.After || !s.after && s.of == at.Before
}

// sayAt is allowed, and notes that the sentence has been said.
func (s *sentence) sayAt(at Place) bool {
	is := s.allowed(at)
	s.spoken = s.spoken || is
	return is
}

// find looks for the remark in the book, word for word; here: it may stand here. A
// remark without a word is always found.
func (k *Book) find(at Place, part []remark.Remark) (is, here bool) {
	k.text = k.text[:0]
	for _, r := range part {
		k.text = key(k.text, r.Text, false)
	}
	if len(k.text) == 0 {
		return true, true
	}
	if i, ok := k.exact[string(k.text)]; ok {
		for ; i >= 0; i = k.list[i].more {
			here = k.list[i].sayAt(at) || here
		}
		return true, here
	}
	if len(k.slack)+len(k.open) == 0 {
		return false, false
	}
	said := tokens(nil, string(k.text))
	for _, i := range k.slack {
		if s := &k.list[i]; slices.EqualFunc(s.tokens(), said, token.is) {
			is, here = true, s.sayAt(at) || here
		}
	}
	for _, i := range k.open {
		if s := &k.list[i]; fits(s.tokens(), said) {
			is, here = true, s.sayAt(at) || here
		}
	}
	return is, here
}

// fits matches words with a sentence that is open in places.
func fits(book, said []token) bool {
	back, from := -1, 0 // where the last open place is, and what it has taken up to
	i, j := 0, 0
	for j < len(said) {
		switch {
		case i < len(book) && book[i].open:
			back, from = i, j
			i++
		case i < len(book) && book[i].is(said[j]):
			i, j = i+1, j+1
		case back >= 0:
			from++
			i, j = back+1, from
		default:
			return false
		}
	}
	for i < len(book) && book[i].open {
		i++
	}
	return i == len(book)
}

// weighs are words that turn a sentence round, or change what a number means.
var weighs = map[string]bool{
	"NOT": true, "NO": true, "NEVER": true, "DO": true, "DONT": true, "DON": true, "ONLY": true, "IF": true, "UNLESS": true, "BEFORE": true,
	"AFTER": true, "UNTIL": true, "RADIUS": true, "RADIAL": true, "DIA": true, "ADD": true, "ADDED": true, "SUBTRACT": true, "PLUS": true,
	"MINUS": true, "LARGER": true, "SMALLER": true, "MORE": true, "LESS": true, "OVER": true, "UNDER": true, "IN": true, "MM": true,
	"UIN": true, "UM": true, "X": true, "Y": true, "Z": true, "W": true, "+X": true, "-X": true, "+Y": true, "-Y": true, "+Z": true,
	"-Z": true, "+W": true, "-W": true, "ON": true, "OFF": true, "OUT": true, "UP": true, "DOWN": true, "TOWARD": true, "AWAY": true,
	"LEFT": true, "RIGHT": true, "OPEN": true, "SHUT": true, "START": true, "STOP": true, "RAPID": true, "FEED": true, "SKIP": true,
	"WITHOUT": true, "INSTEAD": true, "TWICE": true, "HALF": true, "IGNORE": true,
}

// like is how much of two sentences is the same for one to be the other, changed.
// Under a label of ours (THEN:, CAUTION:) less does.
const (
	like      = 0.75
	likeUnder = 0.6
)

// differs compares a remark with what may stand at the place. It gives what is wrong
// with it, or whether it is held in other words.
func (k *Book) differs(at Place, part []remark.Remark) (f *Fault, known bool) {
	var said []token
	var lines []int
	for _, r := range part {
		said = tokens(said, r.Text)
		for len(lines) < len(said) {
			lines = append(lines, r.Line)
		}
	}
	if k.work++; k.work > workMost {
		return nil, false
	}
	label, _, labelled := strings.Cut(strings.ToUpper(part[0].Text), ":")
	labelled = labelled && !strings.ContainsFunc(label, func(r rune) bool { return r < 'A' || r > 'Z' })
	best, most := -1, 0.0
	for i := range k.list {
		s := &k.list[i]
		all := s.tokens()
		if !s.allowed(at) || len(k.open) > 0 && slices.Contains(k.open, i) {
			continue
		}
		enough := like
		if labelled && strings.HasPrefix(strings.ToUpper(s.said), label) {
			enough = likeUnder
		}
		if short := min(len(all), len(said)); float64(2*short) < enough*float64(len(all)+len(said)) {
			continue
		}
		if score := 2 * float64(common(all, said, nil, nil)) / float64(len(all)+len(said)); score > most && score >= enough {
			best, most = i, score
		}
	}
	fault := func(what, want string) *Fault {
		return &Fault{part[0].Line, part[len(part)-1].Line, what, want, remark.Read(part).Set}
	}
	if best >= 0 {
		s := &k.list[best]
		inBook, inSaid := make([]bool, len(s.all)), make([]bool, len(said))
		common(s.all, said, inBook, inSaid)
		grave, more, less := false, false, false
		for i, same := range inBook {
			if !same {
				less, grave = true, grave || s.all[i].num || weighs[s.all[i].text]
			}
		}
		for i, same := range inSaid {
			if !same {
				more, grave = true, grave || said[i].num || weighs[said[i].text]
			}
		}
		switch {
		case grave || more && less:
			found, want := apart(joined(part), unmarked(s.said))
			return fault("a remark says "+found, want), true
		case less:
			s.spoken = true
			return nil, true // shorter, and nothing that weighs is gone
		}
		return nil, false
	}
	o := remark.Read(part)
	if o.Set {
		for _, t := range said {
			if weighs[t.text] && !setWords[t.text] {
				return fault("a remark about the cutter's setting that cannot be held: "+quoted(joined(part)), k.setting(at)), true
			}
		}
	}
	if what, want := k.figures(at, said); what != "" {
		return fault(what, want), true
	}
	vocabulary := setWords
	if o.Measure {
		vocabulary = measureWords
	}
	if !o.Any() && !at.Any {
		return nil, false
	}
	return nil, !slices.ContainsFunc(said, func(t token) bool { return !t.num && !vocabulary[t.text] })
}

// Words of which an order is made that the stop's reading holds by itself.
var (
	setWords = map[string]bool{
		"SET": true, "LEAVE": true, "KEEP": true, "CUTTER": true, "TIP": true, "BORING": true, "TO": true, "AT": true, "DIA": true, "IN": true,
		"MM": true, "SPRING": true, "ALLOWED": true, "FOR": true, "SAME": true, "SETTING": true, "AGAIN": true, "AS": true, "IT": true,
		"PASS": true, "OF": true, "ROUGH": true, "SEMI": true, "FINISH": true, "WITNESS": true, "NEXT": true, "THEN": true,
	}
	measureWords = map[string]bool{
		"MEASURE": true, "HOLD": true, "GAUGE": true, "CHECK": true, "MIC": true, "BORE": true, "DIA": true, "SIZE": true, "BOTH": true,
		"ENDS": true, "AT": true, "WITH": true, "HERE": true, "AND": true, "THEN": true, "LIMITS": true, "TO": true, "IN": true, "MM": true,
		"PASS": true, "OF": true, "AFTER": true,
	}
)

// setting is what the cutter is to be set to at the place, in words.
func (k *Book) setting(at Place) string {
	if at.Before >= 0 && at.Before < len(k.v.Passes) {
		return "the cutter set to Ø" + k.size(k.v.Passes[at.Before].Setting.Length())
	}
	return "the settings of the plan, at their stops"
}

// figures looks for what a remark in anybody's words says of the revision, the visit,
// the speed, and of sizes to expect, and holds it.
func (k *Book) figures(at Place, said []token) (what, want string) {
	num := func(i int) bool { return i < len(said) && said[i].num }
	n := len(k.v.Passes)
	for i, t := range said {
		switch t.text {
		case "REV", "REVISION":
			right := tokens(nil, k.p.Job.Revision)
			if i+1 < len(said) && len(right) == 1 && right[0].text != said[i+1].text {
				return "a remark names revision " + said[i+1].text, "revision " + k.p.Job.Revision
			}
		case "VISIT":
			if num(i+1) && said[i+1].n != float64(k.v.N) {
				return "a remark names visit " + said[i+1].text, fmt.Sprintf("visit %d", k.v.N)
			}
		case "S":
			if num(i+1) && !slices.ContainsFunc(k.v.Passes, func(p pass) bool { return math.Abs(float64(p.Speed)-said[i+1].n) <= 0.5 }) {
				return "a remark names the speed " + said[i+1].text + " rev/min", "the speed of a pass"
			}
		case "EXPECT", "EXPECTED":
			p := at.Before
			if p < 0 || p >= n {
				p = at.After
			}
			if at.Any || p < 0 || p >= n || k.v.Passes[p].Low <= 0 {
				continue
			}
			low, high := k.v.Passes[p].Low, k.v.Passes[p].High
			for m := i + 1; m < len(said); m++ {
				if said[m].num && !k.states(said[m].n, low) && !k.states(said[m].n, high) {
					return "a remark has the gauge expect " + quoted(said[m].text), fmt.Sprintf("Ø%s to %s after pass %d", k.bare(low.Length()), k.size(high.Length()), k.v.Passes[p].N)
				}
			}
		}
	}
	return "", ""
}

// states reports that a number is the diameter, in the job's or the program's unit.
func (k *Book) states(v float64, d qty.Diameter) bool {
	return remark.Size{Value: v}.States(d, k.u, k.c.Units)
}

// unmarked is a sentence of the book as it may be said.
func unmarked(s string) string {
	s = slackRE.ReplaceAllString(s, "")
	return strings.ToUpper(strings.ReplaceAll(s, string(openMark), "..."))
}

var slackRE = regexp.MustCompile("\x02[0-9.]+")

// common is how many tokens two sentences have in the same order; where marks are
// given, it marks them.
func common(a, b []token, inA, inB []bool) int {
	w := len(b) + 1
	t := make([]int16, (len(a)+1)*w)
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i].is(b[j]) {
				t[i*w+j] = t[(i+1)*w+j+1] + 1
			} else {
				t[i*w+j] = max(t[(i+1)*w+j], t[i*w+j+1])
			}
		}
	}
	if inA != nil {
		for i, j := 0, 0; i < len(a) && j < len(b); {
			switch {
			case a[i].is(b[j]):
				inA[i], inB[j] = true, true
				i, j = i+1, j+1
			case t[(i+1)*w+j] >= t[i*w+j+1]:
				i++
			default:
				j++
			}
		}
	}
	return int(t[0])
}
