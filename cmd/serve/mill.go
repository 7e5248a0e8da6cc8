package serve

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/approval"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/sheets/card"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/programs"
	"borewright/sheets/words"
)

// millView is the page of a job at the mill.
type millView struct {
	frame
	File, Number, Revision, Work string
	Mark                         string // of the files as they are shown
	Stops                        []string
	Lapsed                       string // approvals there were, and none of them holds
	Done                         bool
	Bores                        []boreLink
	Waits                        string // the bores that are still to be gauged at a setting
	Visit                        string
	At, Of                       int // the task, from 1
	Task                         *taskView
	Measure                      *measureView
	Back, Next                   string // addresses
	Rest                         *tableView
	Mind                         []string
	Cuts                         []cutView
}

type boreLink struct {
	Name, Address string
	Here, Entered bool // entered: it waits for the other bores of its setting
}

// taskView is the next thing to do.
type taskView struct {
	Do      card.Do
	Title   string
	Stop    bool
	Figures []card.Figure
	Lines   []page.KeyValue
	Done    string // on the button that goes on
}

// measureView is what the form of a stop knows.
type measureView struct {
	Station   string
	Pass      int
	Again     bool
	Entries   int
	Unit      string
	Low, High string // of the window
	Setting   string
	Places    []schedule.Place
	Clocks    []clock
	Witness   bool
}

type clock struct{ Name, At string }

type tableView struct {
	Head []string
	Rows []rowView
}

type rowView struct {
	Across string
	Cells  []string
	Now    bool
}

// cutView is one pass that was measured.
type cutView struct {
	Pass            int
	Station, Kind   string
	Sizes           string
	Out             bool
	By, When        string
	Again, Replaced string
}

// millPage shows a job.
func (s *Server) millPage(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	mark := s.mark(name) // before it is read: what comes meanwhile is seen as a change
	x, ok := s.loaded(w, r, name)
	if !ok {
		return
	}
	v := millView{frame: s.frame(r, x.job.Number+" "+x.job.Revision), File: name, Number: x.job.Number, Revision: x.job.Revision, Work: x.job.Title, Mark: mark}
	v.Job = name
	if len(x.approvals.All) > 0 {
		if all, err := x.Approved(x.approvals, x.first()); err == nil && len(all) > 0 && approval.Held(all) == nil {
			v.Lapsed = strings.Join(all[len(all)-1].Since, ", ")
		}
	}
	b := &builder{v: &v, x: x, Hand: card.Hand{Head: head.Of(x.plan)}, ask: r.URL.Query()}
	b.build()
	s.show(w, http.StatusOK, "mill.html", v)
}

// stands answers the mark of a job's files: a screen asks every so often.
func (s *Server) stands(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	if _, err := s.pathOf(name); err != nil {
		http.Error(w, "no such job", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	fmt.Fprint(w, s.mark(name))
}

// builder puts the page of a job together.
type builder struct {
	card.Hand
	v   *millView
	x   *planned
	ask url.Values
}

func (b *builder) build() {
	p := b.x.plan
	b.cuts()
	if !p.Feasible {
		in := words.In(b.x.job.Units)
		for _, r := range p.Reasons {
			b.v.Stops = append(b.v.Stops, in.Sentence(r.What))
		}
		return
	}
	if again, err := strconv.Atoi(b.ask.Get("again")); err == nil {
		if b.again(again, b.ask.Get("bore")) {
			return
		}
	}
	i, k, ok := b.present()
	if !ok {
		b.v.Done = p.Findings != nil
		return
	}
	x := p.Bores[i]
	if k < 0 { // a sleeve that is home
		b.v.Visit = x.Station.Name + ": the sleeve is home"
		b.v.At, b.v.Of = 1, 1
		b.v.Task = &taskView{Do: card.Measure, Title: "Measure the sleeve", Lines: []page.KeyValue{
			page.KV("Make", "the sleeve to the housing as measured, put it in, and measure it"),
			page.KV("Land", b.U.SayLimitsOfSize(x.Bore.Finish.Low, x.Bore.Finish.High))}}
		b.measure(x, x.Home, false)
		return
	}
	b.visit(i, k)
}

// present are the indices of the visit that is next, of a bore if one is named; visit is -1
// where a sleeve is to be measured at home. Where none is named, a bore that was named is entered
// and waits for others, or others are roughed before it is finished, it is the next that is gauged.
func (b *builder) present() (bore, visit int, ok bool) {
	p, next, station := b.x.plan, "", b.ask.Get("bore")
	if x, _, ok := record.Next(p, ""); ok {
		next = x.Station.Name
	}
	if after := b.ask.Get("after"); station == "" && !b.x.job.Apart() {
		station = after
	}
	type place struct {
		bore, visit int
		name        string
	}
	var open []place
	for i := range p.Bores {
		x := &p.Bores[i]
		at := place{i, -1, x.Station.Name}
		for k := range x.Visits {
			if len(x.Visits[k].Passes) > 0 {
				at.visit = k
				break
			}
		}
		if at.visit >= 0 || x.Home != nil {
			open = append(open, at)
		}
	}
	links, here, named := []boreLink{}, 0, false
	for n, o := range open {
		link := boreLink{Name: o.name, Address: b.address("bore", o.name)}
		if o.visit >= 0 {
			entered, left := b.Entered(o.bore, o.visit)
			if link.Entered = slices.Contains(entered, o.name); link.Entered {
				link.Address = b.address("again", strconv.Itoa(b.gauged(o.bore, o.visit)), "bore", o.name)
			}
			b.v.Waits = cmp.Or(b.v.Waits, head.List(left))
		}
		if o.name == station && !link.Entered || o.name == next && !named {
			here, named = n, o.name == station
		}
		links = append(links, link)
	}
	if len(links) > 0 {
		links[here].Here = true
	}
	b.v.Bores = links
	if len(open) == 0 {
		return 0, 0, false
	}
	return open[here].bore, open[here].visit, true
}

// gauged is the number of the pass of a visit that is gauged next.
func (b *builder) gauged(i, k int) int {
	for _, q := range b.x.plan.Bores[i].Visits[k].Passes {
		if q.Hold != nil {
			return q.N
		}
	}
	return 0
}

// address is the page of the job, with what is asked of it.
func (b *builder) address(with ...string) string {
	q := url.Values{}
	for i := 0; i+1 < len(with); i += 2 {
		q.Set(with[i], with[i+1])
	}
	u := url.URL{Path: path.Join("/mill", b.v.File), RawQuery: q.Encode()}
	return u.String()
}

// visit shows the task at hand of a visit, and the card.
func (b *builder) visit(i, k int) {
	p := b.x.plan
	x, v := p.Bores[i], p.Bores[i].Visits[k]
	program := ""
	if all, err := programs.Of(p); err == nil {
		for _, w := range all {
			if w.Bore == i && w.Visit == k {
				program = w.Called.String()
			}
		}
	}
	tasks := b.Tasks(i, k, program)
	entries := strconv.Itoa(len(b.x.results.Entries))
	at := 0
	entered, left := b.Entered(i, k)
	if len(entered) > 0 {
		at = len(tasks) - 1 // it was cut and stopped after
	}
	if n, err := strconv.Atoi(b.ask.Get("at")); err == nil && b.ask.Get("of") == entries {
		at = min(max(n-1, 0), len(tasks)-1)
	}
	t := tasks[at]
	to := func(n int) string {
		return b.address("bore", x.Station.Name, "at", strconv.Itoa(n), "of", entries)
	}
	b.v.At, b.v.Of = at+1, len(tasks)
	if at > 0 {
		b.v.Back = to(at)
	}
	if at+1 < len(tasks) {
		b.v.Next = to(at + 2)
	}
	b.v.Visit = x.Station.Name + ": " + b.Words.Say(v.Title)
	b.v.Task = &taskView{Do: t.Do, Figures: t.Figures, Lines: t.Lines}
	title, done := titles[t.Do][0], titles[t.Do][1]
	if t.Pass != nil {
		title = strings.ReplaceAll(title, "#", fmt.Sprintf("%d, %s", t.Pass.N, t.Pass.Kind))
	}
	b.v.Task.Title, b.v.Task.Done, b.v.Task.Stop = title, done, t.Do == card.Stop || t.Do == card.Hone
	if t.Do == card.Measure {
		if len(v.Together) > 0 {
			b.v.Task.Title = strings.Replace(title, "Measure", "Measure the "+x.Station.Name, 1)
		}
		if len(entered) > 0 {
			b.v.Task.Lines = append([]page.KeyValue{page.KV("Entered", head.List(entered)), page.KV("To gauge", head.List(left))}, t.Lines...)
		}
		b.measure(x, t.Pass, false)
	}
	now := 0
	if t.Pass != nil {
		now = t.Pass.N
	}
	b.rest(i, k, now)
	b.v.Mind = b.Mind(i, k)
}

// titles are the heads of the tasks, and what the button says that goes on.
var titles = map[card.Do][2]string{
	card.Prepare: {"First", "Done"},
	card.Hone:    {"Stop: hone the edge before pass #", "Honed"},
	card.Set:     {"Set the cutter for pass #", "Set"},
	card.Run:     {"Run pass #", "Cut"},
	card.Stop:    {"Stop after pass #", "Stopped"},
	card.Measure: {"Measure after pass #", ""},
}

// rest is the table of the card, all its cards together.
func (b *builder) rest(i, k, now int) {
	for _, s := range b.Visit(i, k, "") {
		for _, block := range s.Blocks {
			t, ok := block.(*page.Table)
			if !ok {
				continue
			}
			if b.v.Rest == nil {
				b.v.Rest = &tableView{}
				for _, c := range t.Columns {
					b.v.Rest.Head = append(b.v.Rest.Head, strings.Join(c.Head, " "))
				}
			}
			for _, r := range t.Rows {
				row := rowView{Across: r.Across, Cells: r.Cells}
				row.Now = len(r.Cells) > 0 && now > 0 && r.Cells[0] == strconv.Itoa(now)
				b.v.Rest.Rows = append(b.v.Rest.Rows, row)
			}
		}
	}
}

// measure is the form for a pass.
func (b *builder) measure(x plan.Bore, q *schedule.Pass, again bool) {
	m := &measureView{Station: x.Station.Name, Pass: q.N, Again: again, Entries: len(b.x.results.Entries), Unit: b.U.String(),
		Low: b.U.Format(q.Low.Length()), High: b.U.Format(q.High.Length()), Places: schedule.Form(q), Witness: q.Kind == schedule.Witness}
	if q.Setting > 0 {
		m.Setting = b.U.Format(q.Setting.Length())
	}
	for _, c := range schedule.FormClocks() {
		m.Clocks = append(m.Clocks, clock{c, strings.Fields(c)[0]})
	}
	b.v.Measure = m
}

// again is the form for a pass that was measured: the entry takes the place of the one before.
func (b *builder) again(n int, station string) bool {
	job := b.x.job
	for at, st := range job.Stations {
		if st.Name != station || job.BoreAt(at) < 0 {
			continue
		}
		m, err := record.Fill(b.x.plan, process.Measured{Station: at, Pass: n})
		if err != nil || m.Low == 0 {
			return false
		}
		if _, _, q := b.x.plan.Pass(at, n); q != nil && !b.x.plan.Waiting(job.BoreAt(at), n) {
			return false // it is still to be cut
		}
		b.v.Visit = station
		b.v.At, b.v.Of = 1, 1
		b.v.Back = b.address("bore", station)
		b.v.Task = &taskView{Do: card.Measure, Title: fmt.Sprintf("Measure pass %d again", n),
			Lines: []page.KeyValue{page.KV("Undo", "What is entered now takes the place of what was entered before; the record keeps both.")}}
		q := &schedule.Pass{N: n, Low: m.Low, High: m.High, Setting: m.Setting, Kind: schedule.Kind(m.Kind - process.WitnessCut)}
		b.measure(plan.Bore{Station: st}, q, true)
		b.v.Measure.Places = schedule.Form(nil)
		return true
	}
	return false
}

// cuts are what was measured, the last first.
func (b *builder) cuts() {
	entries := b.x.results.Entries
	for n := len(entries) - 1; n >= 0; n-- {
		e := entries[n]
		st := b.x.job.Stations[e.Station].Name
		c := cutView{Pass: e.Pass, Station: st, Kind: e.Kind.String(), By: e.By, When: e.When}
		c.Sizes = "Ø" + b.U.Bare(e.Least())
		if e.Most() != e.Least() {
			c.Sizes += " to " + b.U.Say(e.Most())
		} else {
			c.Sizes = b.U.Say(e.Least())
		}
		c.Out = e.Low > 0 && e.Mean() < e.Low || e.High > 0 && e.Mean() > e.High
		for _, later := range entries[n+1:] {
			if later.Station == e.Station && later.Pass == e.Pass {
				c.Replaced = "replaced by " + cmp.Or(later.By, "a later entry")
				break
			}
		}
		if c.Replaced == "" {
			c.Again = b.address("again", strconv.Itoa(e.Pass), "bore", st)
		}
		b.v.Cuts = append(b.v.Cuts, c)
	}
}

// sentence is a fact in the words of the job.
func sentence(job *process.Job, f fact.Fact) string { return words.In(job.Units).Sentence(f) }
