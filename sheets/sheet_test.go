package sheets

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/sheets/card"
	"borewright/sheets/page"
)

// golden compares with golden/sheets/name, and rewrites it when asked to.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("..", "golden", "sheets", name)
	if os.Getenv("UPDATE_GOLDEN") == "1" {
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s (rewrite with UPDATE_GOLDEN=1 and read it): %s", name, d)
	}
}

func TestSheetGolden(t *testing.T) {
	for _, tc := range []struct {
		file  string
		sheet *page.Sheet
		ascii bool
	}{
		{"winch.txt", Build(winch()), false},
		{"winch-ascii.txt", Build(winch()), true},
		{"pump.txt", Build(pump(), WithPrograms("P-17-2-front.ngc", "P-17-2-rear.ngc")), false},
		{"stopped.txt", Build(stopped()), false},
		{"to-sweep.txt", Build(pump(), Only(LineUpPart)), false},
		{"crowded.txt", Build(crowded(), WithPrograms("cross-head.ngc")), false},
	} {
		t.Run(tc.file, func(t *testing.T) {
			var b bytes.Buffer
			write := tc.sheet.WriteText
			if tc.ascii {
				write = tc.sheet.WriteASCII
			}
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			golden(t, tc.file, b.Bytes())
			fitsPaper(t, b.String(), tc.ascii)
			lines := strings.Split(b.String(), "\n")
			for i, l := range lines[:len(lines)-1] {
				if len(l) > 1 && strings.Trim(l, "-") == "" && lines[i+1] == "" {
					t.Errorf("line %d heads nothing: %q", i+1, lines[i-1])
				}
			}
		})
	}
}

func TestDialAndPlate(t *testing.T) {
	for _, tc := range []struct {
		turns int
		rest  float64
		want  string
	}{
		{0, 44, "+44"}, {0, 23.5, "+23½"}, {0, 0, "leave"}, {0, -1, "-1"}, {4, 19, "+4t 19"}, {1, 0, "+1t"}, {-1, -0.5, "-1t ½"},
	} {
		if got := card.Moved(schedule.Set{From: inchD(3.1), Turns: tc.turns, Graduations: tc.rest}); got != tc.want {
			t.Errorf("%v turns and %v: %s, want %s", tc.turns, tc.rest, got, tc.want)
		}
	}
	if got := card.Moved(schedule.Set{OverBar: inch(2.7)}); got != "set" {
		t.Errorf("a first setting: %s", got)
	}
	feeds := inchMill().Feeds
	for _, tc := range []struct {
		in   float64
		want string
	}{{0.004, "step 2 of 6"}, {0.016, "step 6 of 6"}, {0.005, "not a step of this machine"}} {
		if got := card.Step(feeds, inch(tc.in).MM()); got != tc.want {
			t.Errorf("%v in/rev: %s, want %s", tc.in, got, tc.want)
		}
	}
}

// The sheet calls the axis along the bore as the program does, and clamps no
// slide that the program moves.
func TestSheetSpeaksOfTheProgramsSlides(t *testing.T) {
	text := func(p *plan.Plan) string {
		var b bytes.Buffer
		if err := Build(p).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(b.String()), " ")
	}
	control := &process.Control{FeedAxis: 'W', QuillAxis: 'Z', OrientedStop: true, TipAtStop: process.TipMinusY}
	for _, c := range []struct {
		why    string
		change func(*plan.Plan)
		want   []string
		not    []string
	}{
		{"by hand", func(*plan.Plan) {}, []string{"Z0 the face that the spindle enters", "Slides that do not feed are clamped."}, []string{"W0 ", "stay free"}},
		{"the table is W", func(p *plan.Plan) {
			p.Job.Machine.Control = control
			comesOut(&p.Bores[0].Visits[0], schedule.WayOut{By: process.ShiftOut, Shift: inch(0.04), Clock: 180})
		}, []string{"W0 the face that the spindle enters", "Free for the program: X and Y, and Y off the wall before the cutter comes out, W (feeds). All others clamped."}, []string{"Z0 ", "Slides that do not feed"}},
		{"the quill is Z", func(p *plan.Plan) {
			p.Job.Machine.Control, p.Job.Bar.FeedBy = control, process.QuillFeed
			for i := range p.Bores[0].Visits {
				comesOut(&p.Bores[0].Visits[i], schedule.WayOut{By: process.FeedOut})
			}
		}, []string{"Z0 the face", "Free for the program: X and Y, Z (feeds)", "X and Y are free for the program"}, []string{"The rest stays clamped", "W0 "}},
		{"the program places quill and table", func(p *plan.Plan) {
			placing := *control
			placing.OtherSlide, placing.TableWord = process.OtherPlaced, 'B'
			p.Job.Machine.Control, p.Job.Machine.Travels = &placing, []process.Travel{{Axis: 'Z'}, {Axis: 'W'}, {Axis: 'B'}}
		}, []string{"W (feeds), Z and B (placed before the first pass). All others clamped.", "table: the quill stays where the program puts it"}, []string{"the quill stays clamped"}},
	} {
		p := winch()
		c.change(p)
		got := text(p)
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: no %q", c.why, w)
			}
		}
		for _, w := range c.not {
			if strings.Contains(got, w) {
				t.Errorf("%s: says %q", c.why, w)
			}
		}
	}
}

// Bores keep the numbers of the job on a sheet for the rest, where those that
// are finished stand no more.
func TestBoresKeepTheirNumbers(t *testing.T) {
	p := shipped(t, "gear-case/job.toml")
	p.Bores = p.Bores[1:]
	var b bytes.Buffer
	if err := Build(p).WriteText(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"bore 2, rebore", "bore 3, rebore", "Bore 2 of 3, "} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(b.String(), "bore 1, ") {
		t.Error("the second bore of the job is called bore 1")
	}
}
