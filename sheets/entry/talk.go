package entry

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/sheets/talk"
	"borewright/sheets/words"
)

// Talk asks a person, as of the time Now.
type Talk struct {
	talk.Person
	Now time.Time
}

// Confirmed is whether the person was asked about a slip, and said that it is so.
func (t *Talk) Confirmed(job *process.Job, s record.Slip) bool {
	return t.Person.Confirmed(words.In(job.Units).Say(s.Fact()))
}

// question is one of the talk.
type question struct {
	key, what, usual, help string
	check                  func(answer string) error // whether it can be taken at all
	slips                  func(answer string) []record.Slip
}

// answers are what was said of the entry that a talk is about.
type answers struct {
	*Talk
	job *process.Job
	p   *plan.Plan
	g   Given
	a   map[string]string // what was answered, by key
}

// Ask asks for what an entry leaves out, and fills it in.
func (t *Talk) Ask(job *process.Job, p *plan.Plan, g *Given) error {
	k := &answers{Talk: t, job: job, p: p, g: *g, a: map[string]string{}}
	fmt.Fprintf(t.Out, "Figures in %s and %s. ? explains, < goes back, - takes an answer away; an empty line where there is none.\n", job.Units.Word(), job.Units.Name(qty.KindRead))
	ask := func() (all []talk.Question) {
		for _, q := range k.questions() {
			one := talk.Question{Key: q.key, What: q.what, Usual: q.usual, Help: q.help, Check: q.check}
			if q.slips != nil {
				one.Doubts = func(s string) (all []talk.Doubt) {
					for _, slip := range q.slips(s) {
						all = append(all, talk.Doubt{Say: words.In(job.Units).Say(slip.Fact()), Refuse: slip.Refuse})
					}
					return all
				}
			}
			all = append(all, one)
		}
		return all
	}
	if err := t.Person.Ask(ask, k.a, false); err != nil {
		return err
	}
	*g = k.given()
	return nil
}

// questions are those of the entry by what was answered so far.
func (k *answers) questions() (all []question) {
	ask := func(q question) { all = append(all, q) }
	g, u := &k.g, k.job.Units
	station := g.Station
	if station == "" && len(k.p.Bores) > 1 {
		var names []string
		for _, b := range k.p.Bores {
			names = append(names, b.Station.Name)
		}
		usual := names[0]
		if b, _, ok := record.Next(k.p, ""); ok {
			usual = b.Station.Name
		}
		ask(question{key: "station", what: "Which bore (" + strings.Join(names, ", ") + ")", usual: usual, help: "The bore that was measured, by the name of its station.",
			check: func(s string) error { _, err := stationOf(k.job, k.p, s); return err }})
		station = or(k.a["station"], usual)
	}
	at, err := stationOf(k.job, k.p, station)
	if err != nil {
		return all
	}
	pass := g.Pass
	if _, next, ok := record.Next(k.p, k.job.Stations[at].Name); ok && pass == 0 {
		ask(question{key: "pass", what: "After which pass", usual: strconv.Itoa(next.N), help: "The pass that was cut last before the bore was gauged, by its number on the sheet.",
			check: func(s string) error {
				n, err := strconv.Atoi(s)
				if err != nil || n < 1 {
					return fmt.Errorf("%q is not the number of a pass", s)
				}
				_, err = record.Fill(k.p, process.Measured{Station: at, Pass: n})
				return InWords(k.job, err)
			},
			slips: func(s string) []record.Slip {
				n, _ := strconv.Atoi(s)
				return k.slips(process.Measured{Station: at, Pass: n}, record.Measured, record.OutOfOrder)
			}})
		if pass = next.N; k.a["pass"] != "" {
			pass, _ = strconv.Atoi(k.a["pass"])
		}
	}
	m, err := record.Fill(k.p, process.Measured{Station: at, Pass: pass})
	if err != nil {
		return all
	}
	if g.Setting == "" && m.Setting > 0 {
		ask(question{key: "setting", what: "Cutter was set to, " + u.String(), usual: u.Format(m.Setting.Length()), help: "The diameter that the cutter was set to, in fact: as the sheet says, where nothing else was set.",
			check: func(s string) error { _, err := diameterOf(u, s); return err },
			slips: func(s string) []record.Slip {
				e := m
				e.Setting, _ = diameterOf(u, s)
				return k.slips(e, record.SetOtherwise)
			}})
	}
	if d, err := diameterOf(u, or(g.Setting, k.a["setting"])); err == nil {
		m.Setting = d
	}
	if len(g.Sizes) == 0 {
		k.sizes(at, m, ask)
	}
	k.rest(m, ask)
	return all
}

// sizes asks for as many directions as the form of the sheet has, and then for others.
func (k *answers) sizes(at int, m process.Measured, ask func(question)) {
	single := func(s string) []record.Slip {
		size, _ := sizeOf(k.job, at, s)
		e := m
		e.Sizes = []process.Size{size}
		return k.slips(e, record.NotExpected, record.CannotBe, record.Impossible, record.Smaller, record.Larger)
	}
	within := func(s string) error {
		size, err := sizeOf(k.job, at, s)
		if from, to := k.job.Extent(at); err == nil && size.Depth != process.Unplaced && (size.Depth < from || size.Depth > to) {
			err = fmt.Errorf("%s is outside of %q, which goes from %s to %s", k.job.Units.Say(size.Depth), k.job.Stations[at].Name, k.job.Units.Say(from), k.job.Units.Say(to))
		}
		return err
	}
	none := true
	_, _, pass := k.p.Pass(at, m.Pass) // nil where it was cut and is measured again
	for _, f := range schedule.Form(pass) {
		for _, c := range schedule.FormClocks() {
			key := f.Depth + "@" + strings.Fields(c)[0]
			none = none && k.a[key] == ""
			ask(question{key: key, what: "  " + f.Name + ", " + c + " o'clock", help: "What the bore gauge says there, a diameter; its other unit is taken too, as 85.59mm or 3.3697in.",
				check: func(s string) error {
					if s == "" {
						return nil
					}
					return within(key + "=" + s)
				},
				slips: func(s string) []record.Slip { return single(key + "=" + s) }})
		}
	}
	for i := 1; ; i++ {
		key := fmt.Sprint("another ", i)
		first := i == 1
		ask(question{key: key, what: "  another, as 14.6@1:30=SIZE", help: "A size at another place, DEPTH@CLOCK=SIZE, DEPTH=SIZE, or SIZE alone; the depth counts from the face. An empty line goes on.",
			check: func(s string) error {
				if s == "" && first && none {
					return errors.New("no size is given yet: one at least, or < to go back")
				}
				if s == "" {
					return nil
				}
				return within(s)
			},
			slips: single})
		if k.a[key] == "" {
			return
		}
	}
}

// rest asks for what stands beside the sizes.
func (k *answers) rest(m process.Measured, ask func(question)) {
	g, u := &k.g, k.job.Units
	clocks := func(s string) error { _, err := clocksOf(fieldsOf(s)); return err }
	blank := func(check func(string) error) func(string) error {
		return func(s string) error {
			if s == "" {
				return nil
			}
			return check(s)
		}
	}
	name := func(s string) error { _, err := nameOf(s); return err }
	warm := func(s string) error { _, err := temperatureOf(u, s); return err }
	if m.Kind == process.WitnessCut && len(g.Marked)+len(g.Bare) == 0 {
		ask(question{key: "marked", what: "Where round the clock did the cutter mark, as 12, 6, 9", help: "Clock positions seen from the spindle, where the witness cut took metal.", check: clocks})
		ask(question{key: "bare", what: "And where not", help: "Clock positions where the old wall still shows.", check: clocks,
			slips: func(s string) []record.Slip {
				e := m
				e.Marked, _ = clocksOf(fieldsOf(k.a["marked"]))
				e.Bare, _ = clocksOf(fieldsOf(s))
				return k.slips(e, record.MarkedBare)
			}})
	}
	if g.Ra == "" && m.Kind == process.FinishCut {
		ask(question{key: "ra", what: "Ra, " + u.Name(qty.KindRoughness) + ", if it was measured", help: "Roughness by an instrument; a comparison plate is no measurement: say it as a remark.",
			check: blank(func(s string) error { _, err := raOf(u, s); return err })})
	}
	last := k.p.LastEntry()
	for _, q := range []struct{ given, key, what, usual, help string }{
		{g.WorkTemp, "work", "Temperature of the work, " + u.Name(qty.KindRead), "", "On the wall of the bore, as it was gauged. With that of the gauge, sizes are worked out for " + u.Say(qty.FromCelsius(20)) + "; both are kept. 68 F and 20 C are taken too."},
		{g.GaugeTemp, "gauged", "Temperature of gauge and master, " + u.Name(qty.KindRead), "", "Where gauge and master lay as they were set."},
		{g.Gauge, "gauge", "Gauge, by its mark", last.Gauge, "The mark or number of the bore gauge, for the record."},
		{g.Master, "master", "Master, by its mark", last.Master, "What the gauge was set to: ring, gauge blocks or micrometer, by mark or number."},
		{g.By, "by", "Measured by", "", "Who read the gauge."},
	} {
		check := name
		if q.key == "work" || q.key == "gauged" {
			check = blank(warm)
		}
		if q.given == "" {
			ask(question{key: q.key, what: q.what, usual: q.usual, help: q.help, check: check})
		}
	}
	if g.When == "" {
		ask(question{key: "when", what: "When", usual: k.Now.Format(minute), help: "When it was measured, as " + minute + ", or 14:20 for today; the clock's time where nothing else is said.",
			check: func(s string) error { _, err := whenOf(k.Now, s); return err }})
	}
	if g.Remark == "" {
		ask(question{key: "remark", what: "Remark", help: "What else was seen: chatter, a pore, a change of edge."})
	}
}

// given is the entry with what was answered.
func (k *answers) given() Given {
	g := k.g
	g.Station = or(g.Station, k.a["station"])
	if g.Pass == 0 {
		g.Pass, _ = strconv.Atoi(k.a["pass"])
	}
	g.Setting = or(g.Setting, k.a["setting"])
	if len(g.Sizes) == 0 {
		for _, q := range k.questions() {
			switch s := k.a[q.key]; {
			case s == "":
			case strings.HasPrefix(q.key, "another"):
				g.Sizes = append(g.Sizes, s)
			case strings.Contains(q.key, "@"):
				g.Sizes = append(g.Sizes, q.key+"="+s)
			}
		}
	}
	if len(g.Marked)+len(g.Bare) == 0 {
		g.Marked, g.Bare = fieldsOf(k.a["marked"]), fieldsOf(k.a["bare"])
	}
	g.Ra, g.Remark, g.By, g.When = or(g.Ra, k.a["ra"]), or(g.Remark, k.a["remark"]), or(g.By, k.a["by"]), or(g.When, k.a["when"])
	g.Gauge, g.Master = or(g.Gauge, k.a["gauge"]), or(g.Master, k.a["master"])
	g.WorkTemp, g.GaugeTemp = or(g.WorkTemp, k.a["work"]), or(g.GaugeTemp, k.a["gauged"])
	return g
}

// slips are those of some kinds that an entry shows so far.
func (k *answers) slips(m process.Measured, kinds ...fact.Kind) (out []record.Slip) {
	m, err := record.Fill(k.p, m)
	if err != nil {
		return nil
	}
	for _, s := range record.Slips(k.p, m) {
		for _, kind := range kinds {
			if s.What.Kind == kind {
				out = append(out, s)
			}
		}
	}
	return out
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
