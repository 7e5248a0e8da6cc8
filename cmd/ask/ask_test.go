package ask

import (
	"bufio"
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/sheets/talk"
)

// answers is a person with a list of answers.
func answers(lines ...string) (*talk.Person, *bytes.Buffer) {
	var said bytes.Buffer
	return &talk.Person{In: bufio.NewReader(strings.NewReader(strings.Join(lines, "\n") + "\n")), Out: &said}, &said
}

// gearCase is a job in inches, by hours of the clock.
var gearCase = []string{"", "", "",
	"cover", "", "1", "4.75", "yes", "",
	"seat", "6", "7.25", "3.546", "", "", "",
	"seat", ".75", "radius",
	"6.2", "", "1.7730 1.7765 1.7820 1.7755", "7.0", "", "1.7732 1.7760 1.7810 1.7750", "",
	"rebore", "3.625 H7", "", ".0005", "",
	"3.5", "2", "2-1/2", "7.5", "", "", "", "", "", "",
	"", ".031", "", "", "2.7", "4.0",
	"cover", "", ".15", "", "0 .0004 .0010 .0006", "",
	"cover", "", ".85", "", "0 .0005 .0011 .0006", "", "",
	"MB-101", "", "", "",
}

// asked is the job that answers give.
func asked(t *testing.T, u qty.Unit, lines []string) (*process.Job, []byte, string) {
	t.Helper()
	p, said := answers(lines...)
	text, err := Job(p, u, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	if p.In.Buffered() > 0 {
		t.Fatalf("answers are left over\n%s", said)
	}
	job, err := files.Job("job.toml", text, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return job, text, said.String()
}

// TestAnswersMakeAJob: what is answered stands in the file, plans, and asked about again
// with nothing changed stays to the byte.
func TestAnswersMakeAJob(t *testing.T) {
	job, text, said := asked(t, qty.Inches, gearCase)
	if p := plan.Make(job); !p.Feasible {
		t.Errorf("not feasible: %v", p.Reasons)
	}
	if b := job.Bores[0]; len(b.Wear) != 2 || b.Wear[1].At[2] != 180 || b.Wear[0].Radius[2] != qty.FromInches(1.7820) || b.Finish.Fit != "H7" {
		t.Errorf("the bore: %+v", b)
	}
	if s := job.Bar.Steps; len(s) != 2 || s[1].Diameter != qty.Diameter(qty.FromInches(2.5)) || job.Stations[1].Wall != qty.FromInches(0.75) || len(job.Sweeps) != 2 {
		t.Errorf("the bar: %+v", s)
	}
	for _, want := range []string{"# ---- The bar", "swept = true }", `at = ["12", "3", "6", "9"]`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file lacks %q:\n%s", want, text)
		}
	}
	for _, want := range []string{"b  seat, worn, Ø3.546, 6 to 7.25", "===>"} {
		if !strings.Contains(said, want) {
			t.Errorf("the drawing lacks %q", want)
		}
	}
	for _, line := range strings.Split(said, "\n") {
		if n := len([]rune(line)); strings.HasPrefix(line, "  |") && n > 79 {
			t.Errorf("%d wide: %s", n, line)
		}
	}
	p, _ := answers(make([]string, 80)...)
	if again, err := Again(p, "job.toml", text, nil); err != nil || !bytes.Equal(again, text) {
		t.Errorf("asked again it changes: %v\n%s", err, Changes(text, again))
	}
}

// TestEveryQuestionExplains: "?" before each answer changes nothing and says something.
func TestEveryQuestionExplains(t *testing.T) {
	_, want, plainly := asked(t, qty.Inches, gearCase)
	var lines []string
	for _, a := range gearCase {
		lines = append(lines, "?", a)
	}
	_, got, said := asked(t, qty.Inches, lines)
	if !bytes.Equal(want, got) {
		t.Error("an explanation changes the file")
	}
	if !strings.Contains(said, "hole class") || strings.Count(said, "\n") < strings.Count(plainly, "\n")+2*len(gearCase) {
		t.Errorf("some question does not explain itself:\n%s", said)
	}
	for line := range strings.Lines(said) {
		if n := len([]rune(line)); n > 200 {
			t.Errorf("%d wide: %s", n, line)
		}
	}
	f := newForm(want, "", nil)
	f.fill()
	for _, q := range f.asks() {
		if len(q.Help) < 20 || strings.Contains(q.Help, "  .") {
			t.Errorf("%s: ? says %q", q.Key, q.Help)
		}
	}
}

// prompted answers each question by its first words; what has several answers gives one
// each time, and what has none left an empty line.
type prompted struct {
	answers map[string][]string
	asked   bytes.Buffer
	pending []byte
	seen    int
}

func (s *prompted) Write(b []byte) (int, error) { return s.asked.Write(b) }

func (s *prompted) Read(b []byte) (int, error) {
	if len(s.pending) == 0 {
		if s.seen++; s.seen > 300 {
			return 0, errors.New("it asks for ever")
		}
		lines := strings.Split(s.asked.String(), "\n")
		prompt, answer, longest := strings.TrimSpace(lines[len(lines)-1]), "", 0
		for start, list := range s.answers {
			if strings.HasPrefix(prompt, start) && len(list) > 0 && len(start) > longest {
				answer, longest = list[0], len(start)
			}
		}
		for start, list := range s.answers {
			if len(start) == longest && strings.HasPrefix(prompt, start) && len(list) > 0 {
				s.answers[start] = list[1:]
			}
		}
		s.asked.WriteString(answer + "\n")
		s.pending = []byte(answer + "\n")
	}
	n := copy(b, s.pending[:1])
	s.pending = s.pending[n:]
	return n, nil
}

// TestSlipsAndBack: each wrong answer is told at once by what the loader says, and asked
// for again; "<" goes back, "-" takes away. The file is that of no slips.
func TestSlipsAndBack(t *testing.T) {
	s := &prompted{answers: map[string][]string{
		"Units":                       {"inches", ""},
		"The mill":                    {"hbm5in", ""},
		"Metal of the casting":        {"granite", ""},
		"First piece":                 {"cover"},
		"Next piece":                  {"cover", "seat", ""},
		"begins at":                   {"", "<", "6"}, // back to the name, which is kept
		"ends at":                     {"1", "5", "7.25"},
		"its diameter now":            {"4,75", "4.75 furlongs", "4.75", "35.46", "3.546"},
		"can a dial":                  {"perhaps", "yes", "<", ""},
		"The worn bore":               {"saet", "seat"},
		"least metal":                 {"2000 in", ".75"},
		"how it was read":             {"dial", "radius"},
		"read at the depth":           {"9", "6.2"},
		"read at another depth":       {"7.0", ""},
		"at the clock positions":      {"12 3 25:00 9", ""},
		"the readings there":          {"1.7730 1.7765 1.7820", "1.7730 1.7765 1.7820 1.7755", "1.7732 1.7760 1.7810 1.7750"},
		"how it is restored":          {"weld", "rebore"},
		"the size it must come to":    {"3.2 H7", "3.625 H99", "3.625", "3.625 H7"},
		"roughness":                   {"9000", ""},
		"how round":                   {".0005"},
		"The bar from":                {"3.5"},
		"the next step":               {"2-1/2", ""},
		"its length":                  {"2", "0", "7.5"},
		"the bar is made of":          {"cheese", ""},
		"fed by":                      {"chain", ""},
		"clamped to stand out":        {"9", "9 8", "1 10", "8 10", "<", "-"},
		"quill drawn out":             {"90", "<", "3 furlongs", ""},
		"its nose radius":             {".031"},
		"lead":                        {"15", ""},
		"smallest diameter":           {"2.7"},
		"largest":                     {"2", "4.0"},
		"A dial was run round":        {"seat", "cover"},
		"Another sweep":               {"cover", ""},
		"at the depth, from the face": {"3", ".15", ".85"},
		"the dial read there":         {"0 .0004 .0010", "0 .04 .10 .06", "0 .0004 .0010 .0006", "0 .005 .011 .006", "0 .0005 .0011 .0006"},
		"Enter it all the same":       {"no", "no"},
		"Number of the job":           {"", "MB-101"},
		"What the job is":             {"<", ""},
		"Who it is for":               {"-"},
	}}
	text, err := Job(&talk.Person{In: bufio.NewReaderSize(s, 16), Out: s}, qty.Inches, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, s.asked.String())
	}
	if _, want, _ := asked(t, qty.Inches, gearCase); !bytes.Equal(want, text) {
		t.Errorf("not the same file:\n%s\n%s", Changes(want, text), s.asked.String())
	}
	said := s.asked.String()
	for _, mistake := range []string{`"hbm5in"; did you mean "hbm-5in"`, `"granite"`, `"4,75" has a decimal comma`, "furlongs", "answer yes or no", `"cover" is already the name`, `"saet"; did you mean "seat"`,
		`"dial" is none of across, radius, none`, "to must be deeper", "H99", `"cheese"`, `"chain" is not known here`, "smaller than the bore is now", "is stated by diameter alone; ? shows the four ways",
		"the work stands 0.051 in off the spindle", "the work leans 7.17 mrad", "15° is out of range", "this has to be answered", `"weld"`, "9000 µin is out of range"} {
		if !strings.Contains(said, mistake) {
			t.Errorf("it does not say %s", mistake)
		}
	}
	for start, left := range s.answers {
		if len(left) > 0 {
			t.Errorf("%s: %q was not asked for", start, left)
		}
	}
	if t.Failed() {
		t.Log(said)
	}
}

// Wear deeper than the wall, or than a tenth of the radius where no wall is stated, is asked about.
func TestWornThrough(t *testing.T) {
	f := newForm(skeleton(qty.Inches), "", nil)
	f.answers = map[string]string{"units": "in", "station[0].name": "seat", "station[0].diameter": "3.5", "bore[0].station": "seat"}
	for _, c := range []struct {
		wall, read string
		across     bool
		want       string
	}{
		{"", "1.80 1.92 1.76", false, ""},
		{"", "1.80 1.93 1.76", false, "0.18 in deep on the radius"},
		{"0.25", "1.80 1.99", false, ""},
		{"0.25", "1.80 2.01", false, "0.26 in deep in the wall, and 0.25 in"},
		{"0.25", "3.6, 4.04", true, "0.27 in deep in the wall"},
	} {
		f.answers["station[0].wall"] = c.wall
		said := ""
		for _, d := range f.wearDoubts("bore[0].", c.across)(c.read) {
			said += d.Say
		}
		if (c.want == "") != (said == "") || !strings.Contains(said, c.want) {
			t.Errorf("wall %q, read %s: %q, want %q", c.wall, c.read, said, c.want)
		}
	}
}

// TestInMillimetres: a sleeve in mm, read by degrees; going back to the repair takes the
// sleeve out again.
func TestInMillimetres(t *testing.T) {
	s := map[string][]string{
		"Units": {"mm"}, "The mill": {"cnc-110mm"}, "First piece": {"cover"}, "Next piece": {"seat", ""}, "begins at": {"", "150"}, "ends at": {"25", "182"},
		"its diameter now": {"120", "90.06"}, "can a dial": {"yes"}, "least metal": {"20"}, "how it was read": {"radius"}, "read at the depth": {"155"},
		"at the clock positions": {"0 90 180 270", "0, 90, 180, 270"}, "the readings there": {"45.03 45.12 45.26 45.10"}, "the size it must": {"92 H7", "85 H7"},
		"The bar from": {"90"}, "the next step": {"63", ""}, "its length": {"50", "190"}, "its nose": {"0.8"}, "smallest diameter": {"68"}, "largest": {"100"},
		"A dial was": {"cover"}, "at the depth, from the face": {"4 mm"}, "the dial read": {"0 0.01 0.025 0.015"}, "Number": {"M-7"},
	}
	sleeve := &prompted{answers: s}
	text, err := Job(&talk.Person{In: bufio.NewReaderSize(sleeve, 16), Out: sleeve}, qty.Inches, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, sleeve.asked.String())
	}
	job, err := files.Job("job.toml", text, nil)
	if err != nil || job.Sleeve == nil || job.Units != qty.Metric || job.Bores[0].Wear[0].At[1] != 90 || job.Sweeps[0].At[3] != 270 || job.Sweeps[0].Depth != 4*qty.Millimetre {
		t.Fatalf("%v\n%s", err, text)
	}
	if p := plan.Make(job); !p.Feasible {
		t.Errorf("%v\n%s", p.Reasons, text)
	}
	edit := &prompted{answers: map[string][]string{"how it is restored": {"rebore"}, "the size it must": {"92.5 to 92.54"}, "how it was read": {"none"}}}
	now, err := Again(&talk.Person{In: bufio.NewReaderSize(edit, 16), Out: edit}, "job.toml", text, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, edit.asked.String())
	}
	job, err = files.Job("job.toml", now, nil)
	if err != nil || job.Sleeve != nil || len(job.Bores[0].Wear) > 0 || job.Bores[0].Finish.High != qty.Diameter(qty.FromMM(92.54)) || !bytes.Contains(now, []byte("finish = { low = 92.5, high = 92.54 }")) {
		t.Errorf("%v\n%s", err, Changes(text, now))
	}
}

// TestBarOfAnyLength: a bar that is clamped at any length and a quill that may be drawn out are asked for, in inches
// and in mm, asked again as they stand, and taken away; not where a bearing or a quill that feeds leaves no choice.
func TestBarOfAnyLength(t *testing.T) {
	most := slices.Index(gearCase, "7.5") + 5 // the answer to how it is clamped
	rows := []struct {
		stickout, quill string
		least, most, by qty.Length
	}{
		{"9 12", "4", 9 * qty.Inch, 12 * qty.Inch, 4 * qty.Inch},
		{"9 1/2, 12", "", 19 * qty.Inch / 2, 12 * qty.Inch, 0},
		{"230 mm, 300 mm", "100 mm", 230 * qty.Millimetre, 300 * qty.Millimetre, 100 * qty.Millimetre},
		{"", "4", 0, 0, 4 * qty.Inch},
	}
	for _, x := range rows[:slow.Rounds(t, "bars clamped at any length", len(rows), 1)] {
		lines := slices.Clone(gearCase)
		lines[most], lines[most+1] = x.stickout, x.quill
		job, text, _ := asked(t, qty.Inches, lines)
		if b := job.Bar; b.Stands != [2]qty.Length{x.least, x.most} || b.QuillOut != x.by || !b.Adjustable() {
			t.Errorf("%q and %q: %v, %v\n%s", x.stickout, x.quill, b.Stands, b.QuillOut, text)
		}
		p, _ := answers(make([]string, 80)...)
		if again, err := Again(p, "job.toml", text, nil); err != nil || !bytes.Equal(again, text) {
			t.Errorf("asked again it changes: %v\n%s", err, Changes(text, again))
		}
		for _, other := range []map[string][]string{{"fed by": {"quill"}, "clamped to": {"-"}}, {"its length": {"2", "13"}, "outboard bearing": {"13"}, "its running": {"0.001"}, "from the nose to the tip": {"9"}}} {
			s := &prompted{answers: other}
			now, err := Again(&talk.Person{In: bufio.NewReaderSize(s, 16), Out: s}, "job.toml", text, nil)
			if err != nil || bytes.Contains(now, []byte("\nstickout")) || bytes.Contains(now, []byte("\nquill_out")) {
				t.Errorf("%q and %q, then %v: %v\n%s\n%s", x.stickout, x.quill, other, err, now, s.asked.String())
			}
		}
	}
}

// TestEndInTheMiddle: wherever the answers end, there is no file.
func TestEndInTheMiddle(t *testing.T) {
	step := 7
	if testing.Short() {
		step = 23
	}
	for n := 0; n < len(gearCase); n += step {
		p, _ := answers(gearCase[:n]...)
		if text, err := Job(p, qty.Inches, nil); !errors.Is(err, talk.ErrEnd) || text != nil {
			t.Errorf("after %d answers: %v, %d bytes", n, err, len(text))
		}
	}
}

// TestEditKeepsTheFile: each shipped job asked again with nothing changed stays to the
// byte, and with one answer changed has that line changed alone.
func TestEditKeepsTheFile(t *testing.T) {
	names, err := filepath.Glob("../../testdata/jobs/*/*.toml")
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	names = append(names, "../../process/files/catalog/new/in.toml", "../../process/files/catalog/new/mm.toml")
	if testing.Short() {
		names = names[len(names)-1:]
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		open := func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(name), n)) }
		if _, err := files.Job("job.toml", data, open); err != nil || !bytes.Contains(data, []byte("revision")) {
			continue
		}
		f := newForm(data, "", open)
		f.fill()
		at := slices.IndexFunc(f.asks(), func(q talk.Question) bool { return q.Key == "revision" })
		lines := make([]string, len(f.asks()))
		p, said := answers(lines...)
		if now, err := Again(p, "job.toml", data, open); err != nil || !bytes.Equal(now, data) {
			t.Errorf("%s: %v\n%s\n%s", name, err, Changes(data, now), said)
			continue
		}
		lines[at] = "Z9"
		p, _ = answers(lines...)
		now, err := Again(p, "job.toml", data, open)
		if err != nil || strings.Count(Changes(data, now), "\n") != 2 || !strings.Contains(Changes(data, now), `"Z9"`) {
			t.Errorf("%s: %v\n%s", name, err, Changes(data, now))
		}
	}
}

// TestMachineFromThePlate: what stands on the name plate goes in, the rest stays, and its
// source is said.
func TestMachineFromThePlate(t *testing.T) {
	for _, id := range []string{"hbm-5in", "cnc-110mm"} {
		data, err := files.BuiltIn("machines", id)
		if err != nil {
			t.Fatal(err)
		}
		f := newForm(data, "machine", nil)
		f.asks = f.plate
		f.fill()
		var lines []string
		change := map[string]string{"name": "Our mill", "speeds": "8 12 18 27 100", "quill_travel": "700 mm"}
		for _, q := range f.asks() {
			if len(q.Help) < 20 {
				t.Errorf("%s: ? says %q", q.Key, q.Help)
			}
			if q.Key == "quill" {
				lines = append(lines, "9000", "?")
			}
			lines = append(lines, change[q.Key])
		}
		p, said := answers(lines...)
		now, err := Machine(p, data)
		if err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
		m, err := files.Machine("", now)
		if err != nil || m.Name != "Our mill" || m.QuillTravel != qty.FromMM(700) {
			t.Errorf("%v %+v", err, m)
		}
		if id == "hbm-5in" && (m.Speeds.Most != 100 || !strings.Contains(m.Source, "the name plate") || bytes.Contains(now, []byte("24 speeds"))) {
			t.Errorf("%+v\n%s", m.Speeds, now)
		}
	}
}
