// Package ask puts a job file or a machine file together by asking: in the order in which
// one stands at the casting, each answer held by the loader's own checks as it is given.
// A file that is there is asked about again with its present answers, and changed where
// they change; all else in it stays.
//
// What belongs here: the questions, and how an answer stands in a file. What does not:
// what may be answered (process/files), how a talk goes (sheets/talk), the disk.
package ask

import (
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/plate"
	"borewright/process/qty"
	"borewright/process/source"
	"borewright/sheets/page"
	"borewright/sheets/talk"
)

// form is a file that is asked for.
type form struct {
	text    []byte // as answered so far
	answers map[string]string
	wrong   source.Errors // what the loader says of text

	under   string // of its keys among all: "" for a job
	load    func(data []byte) error
	asks    func() []talk.Question
	edits   func(path, value string) []source.Edit
	entries map[string]keys.Entry
	builtIn [4]string // mills, metals, bars, cutters, as "?" says them
}

// Job asks for a job file that is not there yet. open reads the files that it names. The
// error is talk.ErrEnd where the answers end in the middle.
func Job(p *talk.Person, u qty.Unit, open func(string) ([]byte, error)) ([]byte, error) {
	f := newForm(skeleton(u), "", open)
	f.answers["units"] = u.String()
	return f.talk(p)
}

// Again asks for a job file once more, with its present answers. Its remarks, its order and
// what is not asked for stay as they are.
func Again(p *talk.Person, name string, data []byte, open func(string) ([]byte, error)) ([]byte, error) {
	if _, err := files.Job(name, data, open); err != nil {
		return nil, err
	}
	f := newForm(data, "", open)
	f.fill()
	return f.talk(p)
}

// Machine asks for what the name plate of a mill says, from the file of a machine of its
// class.
func Machine(p *talk.Person, data []byte) ([]byte, error) {
	f := newForm(data, "machine", nil)
	f.load = func(data []byte) error { _, err := files.Machine("", data); return err }
	f.asks, f.edits = f.plate, plate.Edits
	f.fill()
	return f.talk(p)
}

func newForm(text []byte, under string, open func(string) ([]byte, error)) *form {
	f := &form{text: text, answers: map[string]string{}, under: under, entries: map[string]keys.Entry{}, builtIn: builtIn()}
	f.load = func(data []byte) error { _, err := files.Job("job.toml", data, open); return err }
	f.asks = f.job
	f.edits = func(path, value string) []source.Edit { return []source.Edit{{Path: path, Value: value}} }
	for _, e := range files.Keys() {
		f.entries[e.Key] = e
	}
	return f
}

// talk asks until the file loads.
func (f *form) talk(p *talk.Person) ([]byte, error) {
	fmt.Fprint(p.Out, "? explains a question, < goes back to the one before, - takes an answer away.\nAn empty line takes what stands in brackets, or leaves out what may be left out.\n")
	f.wrong = f.faults(f.text)
	for {
		if err := p.Ask(f.questions, f.answers, true); err != nil {
			return nil, err
		}
		if len(f.wrong) == 0 {
			return f.text, nil
		}
		fmt.Fprintf(p.Out, "\n  %s\n", said(f.wrong[0]))
		for _, q := range f.questions() {
			if p.From == "" && near(f.wrong[0].Key, q.Key) {
				p.From = q.Key
			}
		}
		if p.From == "" {
			return nil, f.wrong
		}
	}
}

func (f *form) faults(text []byte) (list source.Errors) {
	errors.As(f.load(text), &list)
	return list
}

// said is a mistake without its place: the file is not on the disk yet.
func said(p source.Problem) string {
	return fmt.Sprintf("%s: %s; %s", p.Key, p.What, p.Allowed)
}

// questions are those that there are by what was answered. What was answered to others
// before is taken out of the file.
func (f *form) questions() []talk.Question {
	for {
		all := f.asks()
		asked := map[string]bool{}
		for _, q := range all {
			asked[q.Key] = true
		}
		var gone []string
		for k := range f.answers {
			if !asked[k] {
				gone = append(gone, k)
			}
		}
		if len(gone) == 0 {
			return all
		}
		slices.Sort(gone)
		slices.Reverse(gone) // the last element first, the keys of a table before it
		for _, k := range gone {
			f.put(k, "")
			delete(f.answers, k)
		}
		f.wrong = f.faults(f.text)
	}
}

// put writes an answer into the text.
func (f *form) put(path, answer string) error {
	text, err := source.Edited(f.text, f.editsOf(path, answer)...)
	if err == nil {
		f.text = text
	}
	return err
}

func (f *form) editsOf(path, answer string) (all []source.Edit) {
	if strings.Contains(path, " ") { // of no key: how many there are, how it is stated
		return nil
	}
	if strings.HasSuffix(path, ".finish") {
		return finishEdits(path, answer)
	}
	if answer == "" {
		if m := ender.FindStringSubmatch(path); m != nil {
			return []source.Edit{{Path: strings.Join(m[1:], "")}}
		}
		return []source.Edit{{Path: path}}
	}
	v := f.value(path, answer)
	if v == "false" && f.entries[f.key(path)].Default == v {
		v = ""
	}
	return f.edits(path, v)
}

// ender are the keys without which there is no element, or no table.
var ender = regexp.MustCompile(`^(station\[[0-9]+\])\.name$|^(bar\.steps\[[0-9]+\])\.diameter$|^(.*\.wear\[[0-9]+\])\.depth$|^((?:bore|sweep)\[[0-9]+\])\.station$|^(sleeve)\.material$|^(bar\.(?:out|in)board)\.at$`)

// near is whether a mistake at one path may be mended at another: one stands in the other.
func near(a, b string) bool {
	in := func(a, b string) bool {
		return a == b || strings.HasPrefix(a, b+".") || strings.HasPrefix(a, b+"[")
	}
	return in(a, b) || in(b, a)
}

// check holds an answer as the loader does: nothing may be wrong with it, or with an
// answer before it that was right until now. What can be mended by a question that is
// still to come is left to that.
func (f *form) check(q string) func(string) error {
	return func(answer string) error {
		text, wrong, before := f.text, f.wrong, maps.Clone(f.answers)
		was, had := f.answers[q]
		back := func(err error) error {
			f.text, f.wrong = text, wrong
			clear(f.answers)
			maps.Copy(f.answers, before)
			return err
		}
		f.answers[q] = answer
		if !had || was != answer {
			if err := f.put(q, answer); err != nil {
				return back(err)
			}
			f.wrong = f.faults(f.text)
		}
		later := false
		var rest []string
		for _, x := range f.questions() {
			if later {
				rest = append(rest, x.Key)
			}
			later = later || x.Key == q
		}
		for _, p := range f.wrong {
			own := near(p.Key, q)
			known := slices.ContainsFunc(wrong, func(o source.Problem) bool { return o.Key == p.Key && o.What == p.What })
			switch {
			case strings.Contains(p.What, "no [sleeve]") && slices.Contains(rest, "sleeve.material"):
			case q == "bar.outboard.at" && strings.Contains(p.What, "the cutter") && slices.Contains(rest, "bar.cutter_at"): // asked after it
			case slices.ContainsFunc(rest, func(k string) bool { return near(p.Key, k) && !(own && p.Key == q) }):
			case own && answer == "" && strings.Contains(p.What, "is missing"):
				return back(errors.New("this has to be answered; ? explains"))
			case own && strings.HasPrefix(f.kind(q), "true"):
				return back(errors.New("answer yes or no"))
			case own && strings.HasSuffix(q, ".finish") && strings.Contains(p.What, "stated by"):
				return back(errors.New(p.What + "; ? shows the four ways"))
			case own:
				return back(errors.New(p.What + "; " + p.Allowed))
			case !known:
				return back(errors.New(said(p)))
			}
		}
		return nil // the talk keeps it
	}
}

// fill takes the answers from the file.
func (f *form) fill() {
	var m map[string]any
	if _, err := toml.Decode(string(f.text), &m); err != nil {
		return // it was loaded before
	}
	have := map[string]any{}
	flatten("", m, have)
	for n := -1; n != len(f.answers); {
		n = len(f.answers)
		for _, q := range f.asks() {
			if _, done := f.answers[q.Key]; !done {
				f.answers[q.Key] = f.present(q.Key, have)
			}
		}
	}
}

// help is what a key means, as explain says it.
func (f *form) help(path string) string {
	e := f.entries[f.key(path)]
	lines := page.Fold(strings.ToUpper(e.Text[:1])+e.Text[1:]+".", 74)
	for _, p := range [][2]string{{"allowed", e.Range}, {"as in", e.Example}} {
		if p[1] != "" {
			lines = append(lines, page.Fold(p[0]+": "+p[1], 74)...)
		}
	}
	return strings.Join(lines, "\n  ")
}
