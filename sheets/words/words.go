// Package words puts the facts of a plan (process/fact) in words, in the units
// of the reader. The plan decides, and says what it decided as a fact; what a
// person reads of it stands here and nowhere else.
//
// There is one file for each room that makes facts, with one entry for each
// kind that the room declares: a template, or a choice of templates. A test
// holds that every kind has words and that every entry has a kind, and that a
// template asks for as many arguments as the facts of its kind are given.
//
// # Templates
//
//	{1}          argument 1: a figure with its unit, a name as it stands in the
//	             job, a fact in its own words, a list with commas
//	{1:bare}     a figure without its unit
//	{1:key}      a key of a file, its lists counted from 1
//	{1:both}     a figure in both systems: "0.0040 in (0.102 mm)"
//	{1..2}       two figures of one kind: "0.0010 to 0.0020 in"
//	{1..2:limits}  two diameters as limits of size, rounded inward
//	{1:pass|passes}  the first word where figure 1 prints as 1, else the second
//	{1:and}      a list as "a, b and c"; {1:or} as "a, b or c"
//	{1:;}        a list with semicolons; {1:then} with ", then "
//	{1:begin}    a fact as it begins a sentence
//	{1:sentence} a fact as a sentence of its own
//	{? with {2}} is left out where one of the arguments in it is not there
//
// Text that stands within a longer sentence begins with a small letter and has
// no full stop; Sentence adds both. Names are printed as they are: whoever
// prints the page makes them printable, as it does with every text.
package words

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/source"
)

// Words speaks in the units of one reader.
type Words struct {
	u     qty.Unit
	rooms []map[fact.Kind]entry
	paths bool // keys as programs write them, their lists from 0
}

// In speaks in u.
func In(u qty.Unit) Words { return Words{u: u, rooms: rooms} }

// InDocument speaks in u for documents that programs read: the lists of a key count from 0 there.
func InDocument(u qty.Unit) Words { return Words{u: u, rooms: rooms, paths: true} }

// Say is a fact as a part of a sentence: "depth of cut: 0.0500 in, 0.0400 in
// allowed". A fact that says nothing is "".
func (w Words) Say(f fact.Fact) string { return w.fill(w.template(f), f) }

// Sentence is a fact as a sentence, with a capital and a full stop. A name at
// its beginning stays as the job writes it.
func (w Words) Sentence(f fact.Fact) string {
	s := w.Say(f)
	if s == "" {
		return ""
	}
	if !w.beginsWithName(f) {
		s = capital(s)
	}
	if strings.IndexByte(".!?:", s[len(s)-1]) < 0 {
		s += "."
	}
	return s
}

// name is what a limit is called: its words before the colon.
func (w Words) name(f fact.Fact) string {
	head, _, _ := strings.Cut(w.template(f), ":")
	return w.fill(head, f)
}

// Sentences are facts as sentences, one each; those that say nothing are left
// out. The list is never nil.
func (w Words) Sentences(facts []fact.Fact) []string {
	out := []string{}
	for _, f := range facts {
		if !f.None() {
			out = append(out, w.Sentence(f))
		}
	}
	return out
}

// Each is facts as parts of sentences, one each. The list is never nil.
func (w Words) Each(facts []fact.Fact) []string {
	out := []string{}
	for _, f := range facts {
		out = append(out, w.Say(f))
	}
	return out
}

// entry chooses the template for a fact of its kind.
type entry func(fact.Fact) string

// text is a kind that is always said alike.
func text(template string) entry { return func(fact.Fact) string { return template } }

// rooms are the entries of all files of this package. They are never written to.
var rooms = []map[fact.Kind]entry{
	asWritten,
	ofFit,
	ofSeats,
	ofSleeve,
	ofMade,
	ofRemedy,
	ofPasses,
	ofSetup,
	ofLanding,
	ofGeom,
	ofClearance,
	ofPlace,
	ofPlan,
	ofWays,
	ofChoice,
	ofRevision,
	ofRecord,
	jobWords,
	ofMeasured,
}

// asWritten is what was read back from a document.
var asWritten = map[fact.Kind]entry{fact.Written: text("{1}")}

// template finds the words of a fact. A kind without words, which the tests
// rule out, is still said, with all that it holds.
func (w Words) template(f fact.Fact) string {
	if f.None() {
		return ""
	}
	for _, room := range w.rooms {
		if e, ok := room[f.Kind]; ok {
			return e(f)
		}
	}
	s := string(f.Kind)
	for i := range f.Args {
		s += " {" + strconv.Itoa(i+1) + "}"
	}
	return s
}

// fill puts the arguments of a fact in the places of a template.
func (w Words) fill(template string, f fact.Fact) string {
	s, _ := w.part(template, f)
	return s
}

// part fills a part of a template; whole is whether all its arguments are
// there.
func (w Words) part(template string, f fact.Fact) (s string, whole bool) {
	var b strings.Builder
	whole = true
	for template != "" {
		open := strings.IndexByte(template, '{')
		if open < 0 {
			b.WriteString(template)
			break
		}
		b.WriteString(template[:open])
		inside, rest := braces(template[open:])
		template = rest
		if optional, ok := strings.CutPrefix(inside, "?"); ok {
			if s, all := w.part(optional, f); all {
				b.WriteString(s)
			}
			continue
		}
		s, there := w.place(inside, f)
		whole = whole && there
		b.WriteString(s)
	}
	return b.String(), whole
}

// braces parts "{inside}rest" at the brace that closes the first one.
func braces(s string) (inside, rest string) {
	depth := 0
	for i := range len(s) {
		switch s[i] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return s[1:i], s[i+1:]
			}
		}
	}
	return s[1:], "" // never closed; a test reads every template
}

// place fills one placeholder.
func (w Words) place(inside string, f fact.Fact) (s string, there bool) {
	number, how, _ := strings.Cut(inside, ":")
	if from, to, ok := strings.Cut(number, ".."); ok {
		least, ok1 := fact.AsFigure(nth(f, from))
		most, ok2 := fact.AsFigure(nth(f, to))
		if !ok1 || !ok2 {
			return "", false
		}
		if how == "limits" {
			return w.u.SayLimits(qty.DiameterMM(least.Value), qty.DiameterMM(most.Value)), true
		}
		return w.u.SayRange(least, most), true
	}
	arg := nth(f, number)
	if arg == nil {
		return "", false
	}
	if n, ok := fact.AsFigure(arg); ok {
		return w.figure(n, how), true
	}
	if s, ok := fact.AsName(arg); ok {
		if how == "key" && !w.paths {
			s = source.Counted(s)
		}
		return s, true
	}
	var said []string
	for _, g := range fact.AsList(arg) {
		if how == "begin" && len(said) == 0 && !w.beginsWithName(g) {
			said = append(said, capital(w.Say(g)))
			continue
		}
		switch how {
		case "sentence":
			said = append(said, w.Sentence(g))
		case "name":
			said = append(said, w.name(g))
		default:
			said = append(said, w.Say(g))
		}
	}
	return join(said, how), true
}

func nth(f fact.Fact, number string) fact.Arg {
	n, err := strconv.Atoi(number)
	if err != nil {
		return nil
	}
	return f.Nth(n)
}

func (w Words) figure(n qty.Figure, how string) string {
	one, many, plural := strings.Cut(how, "|")
	switch {
	case plural && w.u.Bare(n) == "1":
		return one
	case plural:
		return many
	case how == "bare":
		return w.u.Bare(n)
	case how == "both":
		return w.u.SayBoth(n)
	}
	return w.u.Say(n)
}

// join puts a list together: with commas, or as its placeholder says.
func join(said []string, how string) string {
	switch n := len(said); {
	case how == ";":
		return strings.Join(said, "; ")
	case how == "sentence":
		return strings.Join(said, " ")
	case how == "then":
		return strings.Join(said, ", then ")
	case n > 1 && (how == "and" || how == "or"):
		return strings.Join(said[:n-1], ", ") + " " + how + " " + said[n-1]
	}
	return strings.Join(said, ", ")
}

// beginsWithName is whether the first thing said of a fact is a name.
func (w Words) beginsWithName(f fact.Fact) bool {
	t := w.template(f)
	if !strings.HasPrefix(t, "{") || strings.HasPrefix(t, "{?") {
		return false
	}
	inside, _ := braces(t)
	number, _, _ := strings.Cut(inside, ":")
	arg := nth(f, number)
	if _, ok := fact.AsName(arg); ok {
		return true
	}
	facts := fact.AsList(arg)
	return len(facts) > 0 && w.beginsWithName(facts[0])
}

// capital makes the first letter a capital one. Units and symbols with a case
// of their own (mm, µm, kW) never begin a sentence.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
