package entry

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// Talk asks a person. Each answer is checked as it is given; one that cannot be taken is asked
// for again, and those before it stay. "?" explains a question, "<" goes back to the one
// before, "-" takes an answer away. Questions go to Out, which is not where results go.
type Talk struct {
	In  *bufio.Reader
	Out io.Writer
	Now time.Time

	end       bool // no more answers come
	confirmed map[string]bool
}

// line reads an answer.
func (t *Talk) line(what, usual string) string {
	if t.end {
		return ""
	}
	if usual != "" {
		what += " [" + usual + "]"
	}
	fmt.Fprintf(t.Out, "%s: ", what)
	s, err := t.In.ReadString('\n')
	t.end = err != nil
	return strings.TrimSpace(s)
}

// Yes asks whether it is so; no answer is no.
func (t *Talk) Yes(what string) bool {
	s := strings.ToLower(t.line(what+" (yes or no)", "no"))
	return s == "y" || s == "yes"
}

// Confirmed is whether the person was asked about a slip, and said that it is so.
func (t *Talk) Confirmed(job *process.Job, s record.Slip) bool {
	return t.confirmed[words.In(job.Units).Say(s.Fact())]
}

// question is one of the talk.
type question struct {
	key, what, usual, help string
	check                  func(answer string) error // whether it can be taken at all
	slips                  func(answer string) []record.Slip
}

// talk is the entry that a talk is about.
type talk struct {
	*Talk
	job *process.Job
	p   *plan.Plan
	g   Given
	a   map[string]string // what was answered, by key
}

// Ask asks for what an entry leaves out, and fills it in.
func (t *Talk) Ask(job *process.Job, p *plan.Plan, g *Given) error {
	k := &talk{Talk: t, job: job, p: p, g: *g, a: map[string]string{}}
	t.confirmed = map[string]bool{}
	fmt.Fprintf(t.Out, "Figures in %s and %s. ? explains, < goes back, - takes an answer away; an empty line where there is none.\n", job.Units.Word(), job.Units.Name(qty.KindRead))
	for i := 0; ; {
		all := k.questions()
		if i >= len(all) {
			break
		}
		q := all[i]
		usual := q.usual
		if was, again := k.a[q.key]; again {
			usual = was
		}
		switch s := t.line(q.what, usual); {
		case s == "?":
			fmt.Fprintf(t.Out, "  %s\n", q.help)
		case s == "<" || strings.EqualFold(s, "back"):
			i = max(0, i-1)
		default:
			if s == "" {
				s = usual
			}
			if s == "-" {
				s = ""
			}
			if err := k.taken(q, s); err != nil {
				fmt.Fprintf(t.Out, "  %s\n", err)
				if t.end {
					return err
				}
				continue
			}
			k.a[q.key] = s
			i++
		}
	}
	*g = k.given()
	return nil
}

// taken is why an answer cannot be taken; nil where it can. What only looks like a slip is
// asked about.
func (k *talk) taken(q question, s string) error {
	if q.check != nil {
		if err := q.check(s); err != nil {
			return err
		}
	}
	if s == "" || q.slips == nil {
		return nil
	}
	for _, slip := range q.slips(s) {
		say := words.In(k.job.Units).Say(slip.Fact())
		if k.confirmed[say] {
			continue
		}
		if slip.Refuse {
			return errors.New(say)
		}
		fmt.Fprintf(k.Out, "  %s\n", say)
		if !k.Yes("  Enter it all the same?") {
			return errors.New("then once more")
		}
		k.confirmed[say] = true
	}
	return nil
}

// questions are those of the entry by what was answered so far.
func (k *talk) questions() (all []question) {
	ask := func(q question) { all = append(all, q) }
	g, u := &k.g, k.job.Units
	station := g.Station
	if station == "" && len(k.p.Bores) > 1 {
		var names []string
		for _, b := range k.p.Bores {
			names = append(names, b.Station.Name)
		}
		ask(question{key: "station", what: "Which bore (" + strings.Join(names, ", ") + ")", usual: names[0], help: "The bore that was measured, by the name of its station.",
			check: func(s string) error { _, err := stationOf(k.job, k.p, s); return err }})
		station = or(k.a["station"], names[0])
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
func (k *talk) sizes(at int, m process.Measured, ask func(question)) {
	single := func(s string) []record.Slip {
		size, _ := sizeOf(k.job, at, s)
		e := m
		e.Sizes = []process.Size{size}
		return k.slips(e, record.NotExpected, record.CannotBe, record.Impossible, record.Smaller, record.Larger)
	}
	within := func(s string) error {
		size, err := sizeOf(k.job, at, s)
		if st := k.job.Stations[at]; err == nil && size.Depth != process.Unplaced && (size.Depth < st.From || size.Depth > st.To) {
			err = fmt.Errorf("%s is outside of %q, which goes from %s to %s", k.job.Units.Say(size.Depth), st.Name, k.job.Units.Say(st.From), k.job.Units.Say(st.To))
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
func (k *talk) rest(m process.Measured, ask func(question)) {
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
func (k *talk) given() Given {
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
func (k *talk) slips(m process.Measured, kinds ...fact.Kind) (out []record.Slip) {
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
