package ask

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/sheets/page"
	"borewright/sheets/talk"
)

// asker gathers questions.
type asker struct {
	f   *form
	all []talk.Question
}

// ask adds the question of a key.
func (a *asker) ask(path, what, usual string) string {
	q := talk.Question{Key: path, What: what, Usual: usual, Check: a.f.check(path)}
	if !strings.Contains(path, " ") {
		q.Help = a.f.help(path)
	}
	a.all = append(a.all, q)
	return a.f.answers[path]
}

// choose adds a question that no key answers: one of a few words.
func (a *asker) choose(path, what, usual, help string, words ...string) string {
	got := a.ask(path, what+" ("+strings.Join(words, ", ")+")", usual)
	q := &a.all[len(a.all)-1]
	check := q.Check
	q.Help = strings.Join(page.Fold(help, 74), "\n  ")
	q.Check = func(s string) error {
		for _, w := range words {
			if s == w {
				return check(s)
			}
		}
		return fmt.Errorf("%q is none of %s", s, strings.Join(words, ", "))
	}
	return got
}

// say is shown before the question that was added last.
func (a *asker) say(text string) { a.all[len(a.all)-1].Before = text }

// doubts is what makes an answer to it look like a slip.
func (a *asker) doubts(of func(answer string) []talk.Doubt) { a.all[len(a.all)-1].Doubts = of }

// helps adds to what is said of the question that was added last.
func (a *asker) helps(text string) { a.all[len(a.all)-1].Help += "\n  " + text }

// job is the questions of a job.
func (f *form) job() []talk.Question {
	a := &asker{f: f}
	a.ask("units", "Units of the figures (in, mm)", "in")
	a.ask("machine", "The mill", "hbm-5in")
	a.helps(f.builtIn[0])
	a.ask("material", "Metal of the casting", "gray-iron-200hb")
	a.helps(f.builtIn[1])
	names := a.stations()
	a.bores(names)
	a.bar(names)
	a.cutter()
	a.sweeps()
	a.ask("number", "Number of the job", "")
	a.say(f.drawing())
	a.ask("revision", "Its revision", "A")
	a.ask("title", "What the job is, in one line", f.titleOf())
	a.ask("customer", "Who it is for", "")
	return a.all
}

// titleOf is a line that says what is done.
func (f *form) titleOf() string {
	s := f.answers["bore[0].station"]
	if s == "" {
		return ""
	}
	if f.answers["bore[0].repair"] == "sleeve" {
		return "Sleeve the " + s
	}
	return "Rebore the " + s
}

// stations asks for the line of bores; names are what they are called.
func (a *asker) stations() (names []string) {
	last := ""
	for i := 0; ; i++ {
		at := fmt.Sprintf("station[%d].", i)
		what := "Next piece of the line of bores, its name (empty: no more)"
		if i == 0 {
			what = "First piece that the spindle meets, its name"
		}
		name := a.ask(at+"name", what, "")
		a.helps("List every wall, pocket and bore that the bar must pass, from the face that the spindle enters, and the worn one.")
		a.say(a.f.drawing())
		if name == "" {
			return names
		}
		names = append(names, name)
		usual := last
		if i == 0 {
			usual = "0"
		}
		a.ask(at+"from", "  begins at, from the face", usual)
		last = a.ask(at+"to", "  ends at", "")
		a.ask(at+"diameter", "  its diameter now, the least where it is worn", "")
		a.ask(at+"swept", "  can a dial be run round it", "no")
		if a.ask(at+"blind", "  is its far end closed", "no") == "yes" {
			a.ask(at+"relief", "  run-out groove at the closed end", "0")
		}
	}
}

// bores asks what is worn, how it was read and what it must come to.
func (a *asker) bores(names []string) {
	f := a.f
	for i := 0; ; i++ {
		at := fmt.Sprintf("bore[%d].", i)
		what, usual := "Another worn bore (empty: no more)", ""
		if i == 0 {
			what = "The worn bore"
			if len(names) > 0 {
				usual = names[len(names)-1]
			}
		}
		name := a.ask(at+"station", what+": "+strings.Join(names, ", "), usual)
		if name == "" {
			break
		}
		for k, n := range names {
			if n == name {
				a.ask(fmt.Sprintf("station[%d].wall", k), "  least metal around it", "")
			}
		}
		read := a.choose(at+"read by", "  how it was read", "across", "across: diameters by a bore gauge or an inside micrometer, each at a clock position; radius: from the true axis, as by a dial in the spindle; none: not read.", "across", "radius", "none")
		if read == "across" || read == "radius" {
			a.wear(at, read)
		}
		a.ask(at+"repair", "  how it is restored (rebore, sleeve)", "sleeve")
		size, ra := "3.625 H7", "63"
		if f.answers["units"] == "mm" {
			size, ra = "92 H7", "1.6"
		}
		a.ask(at+"finish", "  the size it must come to, as "+size, "")
		a.all[len(a.all)-1].Help = finishHelp
		a.ask(at+"ra", "  roughness, Ra", ra)
		a.ask(at+"roundness", "  how round, on radius", "")
	}
	sleeved := false
	for k, v := range f.answers {
		sleeved = sleeved || strings.HasPrefix(k, "bore[") && strings.HasSuffix(k, "].repair") && v == "sleeve"
	}
	if sleeved {
		a.ask("sleeve.material", "Metal of the sleeve", "steel-1026")
		a.ask("sleeve.hold", "  held by (press, bond)", "press")
		a.ask("sleeve.outside", "  its outside, nominal (empty: the smallest that cleans up)", "")
	}
}

// wear asks for the readings of a worn bore.
func (a *asker) wear(bore, read string) {
	for j := 0; ; j++ {
		at := fmt.Sprintf("%swear[%d].", bore, j)
		what := "    read at another depth, from the face (empty: no more)"
		if j == 0 {
			what = "    read at the depth, from the face"
		}
		if a.ask(at+"depth", what, "") == "" {
			return
		}
		clock := "12 3 6 9"
		if read == "across" {
			clock = "12 1:30 3 4:30"
		}
		if j > 0 {
			clock = a.f.answers[fmt.Sprintf("%swear[%d].at", bore, j-1)]
		}
		a.ask(at+"at", "    at the clock positions", clock)
		a.helps("Hours as 12 3 6 9 or 4:30; degrees as 0 90 180 270.")
		a.ask(at+read, "    the readings there", "")
		a.doubts(a.f.wearDoubts(bore, read == "across"))
	}
}

// bar asks for what stands out of the spindle.
func (a *asker) bar(names []string) {
	for i := 0; ; i++ {
		at := fmt.Sprintf("bar.steps[%d].", i)
		what := "  the next step, its diameter (empty: no more)"
		if i == 0 {
			what = "The bar from the spindle nose outward: first step (adapter or quill drawn out), its diameter"
		}
		if a.ask(at+"diameter", what, "") == "" {
			break
		}
		a.ask(at+"length", "    its length", "")
	}
	a.ask("bar.material", "  the bar is made of", "steel")
	a.helps(a.f.builtIn[2])
	a.ask("bar.feed_by", "  fed by (table, quill)", "table")
	if a.ask("bar.outboard.at", "  outboard bearing, from the nose (empty: none)", "") != "" {
		a.ask("bar.outboard.clearance", "    its running clearance", "")
		a.ask("bar.inboard.at", "    a line bar's inboard bearing, from the nose (empty: the bar stands in the nose)", "")
	} else if behind := a.behind(names); len(behind) > 0 {
		if a.ask("bar.outboard.station", "  a bush for its end in "+strings.Join(behind, ", ")+" (empty: none)", "") != "" {
			a.ask("bar.outboard.clearance", "    its running clearance", "")
		}
	}
	if a.f.answers["bar.outboard.at"] != "" || a.f.answers["bar.outboard.station"] != "" {
		a.ask("bar.cutter_at", "    from the nose to the tip of the cutter, along the bar", "")
		return
	}
	if a.f.answers["bar.steps[0].diameter"] != "" {
		a.ask("bar.stickout", "  clamped to stand out from, to (empty: fixed)", "")
	}
	if a.f.answers["bar.feed_by"] == "table" {
		a.ask("bar.quill_out", "  quill drawn out up to (empty: none)", "")
	}
}

// behind are the pieces that lie behind all that is bored.
func (a *asker) behind(names []string) []string {
	last := -1
	for i := range names {
		last = max(last, slices.Index(names, a.f.answers[fmt.Sprintf("bore[%d].station", i)]))
	}
	if last < 0 {
		return nil
	}
	return names[last+1:]
}

// cutter asks for the tool in it.
func (a *asker) cutter() {
	a.ask("cutter.material", "The cutter is of", "carbide")
	a.say(a.f.drawing())
	a.helps(a.f.builtIn[3])
	a.ask("cutter.nose_radius", "  its nose radius", "")
	a.ask("cutter.lead", "  lead, between edge and direction of feed (90: square)", "75")
	a.ask("cutter.set_by", "  set by (increment, over_bar, preset)", "increment")
	a.ask("cutter.least", "  smallest diameter it can be set to", "")
	a.ask("cutter.most", "  largest", "")
}

// sweeps asks for what a dial showed.
func (a *asker) sweeps() {
	f := a.f
	var swept []string
	for i := 0; f.answers[fmt.Sprintf("station[%d].name", i)] != ""; i++ {
		if f.answers[fmt.Sprintf("station[%d].swept", i)] == "yes" {
			swept = append(swept, f.answers[fmt.Sprintf("station[%d].name", i)])
		}
	}
	for i := 0; len(swept) > 0; i++ {
		at := fmt.Sprintf("sweep[%d].", i)
		what := "Another sweep of a dial"
		if i == 0 {
			what = "A dial was run round"
		}
		if a.ask(at+"station", what+": "+strings.Join(swept, ", ")+" (empty: no more)", "") == "" {
			return
		}
		a.ask(at+"face", "  on the face, not in the bore", "no")
		if f.answers[at+"face"] == "yes" {
			a.ask(at+"diameter", "  on a circle of", "")
		} else {
			a.ask(at+"depth", "  at the depth, from the face", "")
		}
		a.ask(at+"at", "  at the clock positions", "12 3 6 9")
		a.helps("Hours as 12 3 6 9 or 4:30; degrees as 0 90 180 270.")
		a.ask(at+"dial", "  the dial read there", "")
		a.doubts(f.dialDoubts(i))
		a.ask(at+"larger", "  a larger reading: the metal is (nearer, further)", "nearer")
	}
}

// plate is the questions of a machine: each key that its file states, but those that are
// lists of tables.
func (f *form) plate() []talk.Question {
	a := &asker{f: f}
	have := f.stated()
	for _, e := range files.Keys() {
		path, ours := strings.CutPrefix(e.Key, "machine.")
		if _, ok := have[path]; ours && ok && path != "units" && !strings.HasPrefix(path, "source") {
			what, _, _ := strings.Cut(e.Text, ";")
			if e.Unit != "" {
				what += ", " + e.Unit
			}
			a.ask(path, what, "")
		}
	}
	return a.all
}

// present is what the file answers to a question.
func (f *form) present(path string, have map[string]any) string {
	switch bore, _, _ := strings.Cut(path, "."); {
	case strings.HasSuffix(path, ".read by"):
		for _, way := range []string{"radius", "across"} {
			if have[bore+".wear[0]."+way] != nil {
				return way
			}
		}
		return "none"
	case strings.HasSuffix(path, ".finish"):
		return finishOf(path, have)
	}
	v := answer(have[path])
	if e := f.entries[f.key(path)]; v == "" && strings.HasPrefix(e.Type, "true") {
		return "no"
	} else if v == "" && e.Type == "word" && f.under == "" {
		return e.Default
	}
	return v
}

// builtIn are what is built in, in the order in which it is asked for.
func builtIn() (said [4]string) {
	var all [4][]string
	for _, m := range files.Machines() {
		all[0] = append(all[0], m.ID)
	}
	for _, m := range files.Materials() {
		all[1] = append(all[1], m.ID)
	}
	for _, m := range files.BarMaterials() {
		all[2] = append(all[2], m.ID)
	}
	for _, c := range files.CutterMaterials() {
		all[3] = append(all[3], c.ID)
	}
	for i, ids := range all {
		said[i] = strings.Join(page.Fold("built in: "+strings.Join(ids, ", ")+"; or a file ending in .toml beside the job", 74), "\n  ")
	}
	return said
}

// skeleton is a job file with its remarks and nothing in it.
func skeleton(u qty.Unit) []byte {
	return []byte(`# A job as it was asked for at the casting. Text after a # is for you; the
# program does not read it. "borewright explain KEY" tells more about any key,
# "borewright edit" asks again.
units = ` + keys.TOMLText(u.String()) + `

# ---- The line of bores -----------------------------------------------------
# Every piece of the line, inward from the face that the spindle enters: the
# depths at which it begins and ends, and its diameter as it is now.
station = [
]

# ---- What is to be restored ------------------------------------------------
# finish is the size that it must come to; wear is what it was read at: diameters
# across or radii at clock positions, hours in quotes or degrees.
[[bore]]

# ---- The bar ---------------------------------------------------------------
# Its cylinders from the spindle nose outward.
[bar]
steps = [
]

# ---- The cutter ------------------------------------------------------------
# lead is the angle between the edge and the direction of feed: 90 is square.
[cutter]

# ---- Sleeve, sweeps --------------------------------------------------------
# [sleeve] only where a bore is sleeved; a [[sweep]] is a dial run round a bore,
# the spindle turned by hand, as it was read.
`)
}
