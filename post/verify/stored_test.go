package verify

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/post"
	"borewright/post/verify/script"
)

// Every form in which a control may store programs is written, read back to the moves of
// the plan and proven, and other line ends are found where the machine file states some.
// NUL is blank tape: no hole but that of the feed (from memory of ISO 840).
func TestStoredForms(t *testing.T) {
	job := shipped("lock-winch/job.toml")(t)
	plain := string(written(t, planned(t, job, "cnc-110mm", wordsOf), 0, 0))
	for _, c := range []struct{ control, begin, end string }{
		{"", "%\n(WG-204", "M30\n%\n"},
		{"line_end = \"LF\"", "%\n(WG-204", "M30\n%\n"},
		{"line_end = \"CRLF\"", "%\r\n(WG-204", "M30\r\n%\r\n"},
		{"line_end = \"CR\"", "%\r(WG-204", "M30\r%\r"},
		{"leader = 3\ntrailer = 2", "\x00\x00\x00%\n(WG", "%\n\x00\x00"},
		{"leader = 2000\ntrailer = 2000\nline_end = \"CR\"", "\x00\x00\x00", "%\r" + strings.Repeat("\x00", 2000)},
	} {
		p := planned(t, job, "cnc-110mm", wordsOf+c.control)
		for k := range p.Bores[0].Visits {
			if _, err := tripped(p, 0, k); err != nil {
				t.Errorf("%q, visit %d: %v", c.control, k+1, err)
			}
		}
		good := written(t, p, 0, 0)
		if !bytes.HasPrefix(good, []byte(c.begin)) || !bytes.HasSuffix(good, []byte(c.end)) {
			t.Errorf("%q: %.20q ... %q", c.control, good, good[len(good)-20:])
		}
		lines := bytes.FieldsFunc(bytes.Trim(good, "\x00"), func(r rune) bool { return r == '\r' || r == '\n' })
		if text := string(bytes.Join(lines, []byte("\n"))) + "\n"; text != plain {
			t.Errorf("%q changes more than how the program is stored", c.control)
		}
		want := p.Job.Machine.Control.LineEnd.String()
		for is, end := range map[string]string{"LF": "\n", "CRLF": "\r\n", "CR": "\r"} {
			r := Check([]byte(strings.ReplaceAll(plain, "\n", end)), "", p, 0, 0)
			taken := is == want || want == "" && is != "CR"
			if r.Proven != taken {
				t.Errorf("%q: a program with %s: proven %v", c.control, is, r.Proven)
			}
			if want != "" && is != "CR" && want != is && (len(r.Findings) != 1 || r.Findings[0].Line != 1 || r.Findings[0].Kind != script.KindSyntax || !strings.Contains(r.Findings[0].What, "a line that ends in")) {
				t.Errorf("%q: %v", c.control, r.Findings)
			}
		}
	}
	p := planned(t, job, "cnc-110mm", wordsOf+"line_end = \"CR\"")
	mixed := strings.Replace(strings.ReplaceAll(plain, "\n", "\r"), "N20 G54\r", "N20 G54\r\n", 1)
	line := 1 + strings.Count(plain[:strings.Index(plain, "N20 G54")], "\n")
	if r := Check([]byte(mixed), "", p, 0, 0); len(r.Findings) != 1 || r.Findings[0].Line != line {
		t.Errorf("one line feed in line %d: %v", line, r.Findings)
	}
}

// A program may say less: what is left out is listed, and what is said is held.
func TestShortAndBareRemarks(t *testing.T) {
	job := shipped("lock-winch/job.toml")(t)
	for _, c := range []struct {
		remarks string
		has     []string // stands in it
		hasNot  []string
		unsaid  []string // the first and the last topic
		most    int      // lines of remarks
		edits   []wordEdit
	}{
		{"full", []string{"(CAUTION: PROVE OUT"}, nil, nil, 200, nil},
		{"short", []string{"(WG-204 REV C", "VISIT 1 OF 2", "(BAR FROM", "(SET CUTTER TO DIA 3.", "(EXPECT BORE DIA 3.", "(LOCK THE CUTTER", "(MEASURE: "},
			[]string{"CAUTION", "ZERO:", "(CUTTER:", "RETRACT"},
			[]string{"machine", "units", "zero and axes", "clear plane", "cutter", "depths", "list of passes", "way out", "cautions", "room for the gauge", "how to correct"}, 60,
			[]wordEdit{
				{"another setting", "SET CUTTER TO DIA 3.", "SET CUTTER TO DIA 4.", script.KindSetting, " 4."},
				{"another expectation", "EXPECT BORE DIA 3.", "EXPECT BORE DIA 4.", script.KindRemark, " 4."},
				{"the order turned", "DO NOT GO ON", "GO ON", script.KindRemark, "GO ON"},
				{"no order to measure", "(---- HOLD AFTER PASS {semi-finish}: MEASURE BEFORE ANYTHING ELSE IS CUT.)\n", "", "", ""},
				{"another visit", "VISIT 1 OF 2", "VISIT 2 OF 2", script.KindRemark, "VISIT 2"},
			}},
		{"none", nil, []string{"("}, []string{"job and revision", "bore and visit", "machine", "units", "zero and axes", "clear plane", "bar", "cutter", "depths",
			"list of passes", "way out", "cautions", "stops to set the cutter", "sizes to expect", "stops to measure", "room for the gauge", "how to correct"}, 0,
			[]wordEdit{{"one stop left out", "M0\n", "\n", script.KindStop, "stop"}}},
	} {
		p := planned(t, job, "cnc-110mm", wordsOf+"remarks = \""+c.remarks+"\"")
		for k := range p.Bores[0].Visits {
			if _, err := tripped(p, 0, k); err != nil {
				t.Errorf("%s, visit %d: %v", c.remarks, k+1, err)
			}
		}
		good := string(written(t, p, 0, 0))
		for _, s := range c.has {
			if !strings.Contains(good, s) {
				t.Errorf("%s: no %q in\n%s", c.remarks, s, good)
			}
		}
		for _, s := range c.hasNot {
			if strings.Contains(good, s) {
				t.Errorf("%s: %q in\n%s", c.remarks, s, good)
			}
		}
		if n := strings.Count(good, "\n("); n > c.most {
			t.Errorf("%s: %d lines of remarks", c.remarks, n)
		}
		r := Check([]byte(good), "", p, 0, 0)
		if !slices.Equal(r.Unsaid, c.unsaid) || len(r.NotHeld) > 0 {
			t.Errorf("%s: unsaid %q, not held %v", c.remarks, r.Unsaid, r.NotHeld)
		}
		for _, e := range c.edits {
			for _, q := range p.Bores[0].Visits[0].Passes {
				e.old = strings.ReplaceAll(e.old, "{"+q.Kind.String()+"}", strconv.Itoa(q.N))
			}
			if bad := strings.Replace(good, e.old, e.new, 1); bad == good {
				t.Errorf("%s: no %q", c.remarks, e.old)
			} else if r := Check([]byte(bad), "", p, 0, 0); (e.kind == "") != r.Proven || e.kind != "" && !slices.ContainsFunc(r.Findings, func(f Finding) bool { return f.Kind == e.kind && strings.Contains(f.What+f.Want, e.what) }) {
				t.Errorf("%s, %s: %v", c.remarks, e.why, r.Findings)
			}
		}
	}
	// Where the bar is fed out it cuts twice, and the edge is honed: short remarks say that too.
	p := planned(t, job, "cnc-110mm", fedOut+"\nremarks = \"short\"")
	if good := written(t, p, 0, 0); !bytes.Contains(good, []byte("(HONE THE EDGE")) {
		t.Errorf("short: no order to hone in\n%s", good)
	} else if bad := bytes.Replace(good, []byte("(HONE THE EDGE"), []byte("(DO NOT HONE THE EDGE"), 1); Check(bad, "", p, 0, 0).Proven {
		t.Error("short: the order not to hone is proven")
	}
}

// A program of the tool's own with all its remarks leaves nothing to the sheet, whatever the
// job and the control.
func TestFullRemarksSayAll(t *testing.T) {
	for _, v := range someVariants(t) {
		for _, m := range controlled() {
			p := planned(t, v.text(t), m, "")
			for b := range p.Bores {
				for k := range p.Bores[b].Visits {
					var out bytes.Buffer
					if err := post.Write(&out, p, b, k); err != nil {
						t.Fatal(err)
					}
					if r := Check(out.Bytes(), "", p, b, k); p.Job.Machine.Control.Comments && len(r.Unsaid) > 0 {
						t.Errorf("%s on %s, bore %d, visit %d: left to the sheet: %q", v.name, m, b, k, r.Unsaid)
					}
				}
			}
		}
	}
}

// What a program's file is called, by the control; the programs are proven by whatever name.
func TestFileNames(t *testing.T) {
	job := shipped("lock-winch/job.toml")(t)
	for _, c := range []struct{ control, first, second, refused string }{
		{"", "WG-204-C-idler-1.nc", "WG-204-C-idler-2.nc", ""},
		{"file_extension = \"none\"", "WG-204-C-idler-1", "WG-204-C-idler-2", ""},
		{"file_capitals = true\nfile_extension = \"tap\"", "WG-204-C-IDLER-1.TAP", "WG-204-C-IDLER-2.TAP", ""},
		{"file_name = \"{number}{visit}\"", "WG-2041.nc", "WG-2042.nc", ""},
		{"file_name = \"P_{program}\"\nprogram_number = 41", "P_0041.nc", "P_0042.nc", ""},
		{"file_name_most = 10", "WGC1-C-i-1.nc", "WGC1-C-i-2.nc", ""}, // the name of the bore is cut, then the number, to C1 of its check sum
		{"file_name = \"{number}{bore}{visit}\"\nfile_name_most = 8", "WG-204i1.nc", "WG-204i2.nc", ""},
		{"file_name = \"{number}{bore}{visit}\"\nfile_name_most = 9", "WG-204id1.nc", "WG-204id2.nc", ""},
		{"file_name = \"LONGER-{visit}\"\nfile_name_most = 8", "LONGER-1.nc", "LONGER-2.nc", ""},
		{"file_name = \"LONGER-{visit}\"\nfile_name_most = 7", "LONGER-1.nc", "LONGER-2.nc", "has 8 characters before its ending, and file_name_most = 7"},
		{"file_name = \"{bore}{visit}\"\none_file = false", "idler1.nc", "idler2.nc", ""},
		{"program_number = 41\none_file = true", "WG-204-C-all.nc", "WG-204-C-all.nc", ""},
	} {
		p := planned(t, job, "cnc-110mm", wordsOf+c.control)
		if a, b := post.FileName(p, 0, 0), post.FileName(p, 0, 1); a != c.first || b != c.second {
			t.Errorf("%q: %s and %s, want %s and %s", c.control, a, b, c.first, c.second)
		}
		err := post.Write(&bytes.Buffer{}, p, 0, 0)
		if (err == nil) != (c.refused == "") || err != nil && !strings.Contains(err.Error(), c.refused) {
			t.Errorf("%q: %v", c.control, err)
		}
	}
	// A plan after measurements never takes a name of the first one, and two bores never one.
	var tall bool
	for _, v := range variants {
		if tall && testing.Short() {
			break
		}
		if p := planned(t, strings.Replace(v.text(t), "\nunits", "\norder = \"bore_by_bore\"\nunits", 1), "cnc-110mm", wordsOf+"file_name = \"{visit}\""); len(p.Bores) > 1 && len(p.Bores[0].Visits)*len(p.Bores[1].Visits) == 1 {
			tall = true
			if err := post.Write(&bytes.Buffer{}, p, 0, 0); err == nil || !strings.Contains(err.Error(), "would have the file name 1.nc as well; put what tells them apart in control.file_name") {
				t.Errorf("%s: two programs of one name: %v", v.name, err)
			}
		}
	}
	if !tall {
		t.Error("no job of two bores")
	}
}

// All programs of a plan in one file: each is proven against its visit, at its lines in the
// file, and what is missing, doubled or spoilt is found.
func TestOneFile(t *testing.T) {
	job := shipped("lock-winch/job.toml")(t)
	for _, more := range []string{"", "line_end = \"CR\"\nremarks = \"none\"\n", "line_end = \"CRLF\"\npercent = false\nblock_numbers = false\n", "leader = 20\ntrailer = 20\nremarks = \"short\"\n"} {
		p := planned(t, job, "cnc-110mm", wordsOf+more+"program_number = 1204\none_file = true")
		var out bytes.Buffer
		if err := post.WriteFile(&out, p, 0, 1); err != nil {
			t.Fatal(err)
		}
		good := out.String()
		for k := range p.Bores[0].Visits {
			if r := Check(out.Bytes(), "", p, 0, k); !r.Proven || len(r.Cuts) != len(p.Bores[0].Visits[k].Passes) {
				t.Errorf("%q, visit %d: %v", more, k+1, r.Findings)
			}
			if _, err := tripped(p, 0, k); err != nil {
				t.Errorf("%q, visit %d by itself: %v", more, k+1, err)
			}
		}
		if several, strange := Several(out.Bytes(), p); !several || len(strange) > 0 || strings.Count(good, "%") > 2 || strings.Count(good, "M30") != 2 {
			t.Errorf("%q: several %v, strange %v", more, several, strange)
		}
		acts, _, read := post.Acts(out.Bytes(), p.Job.Machine.Control)
		if ends := strings.Count(fmt.Sprint(acts), " end}"); !read || ends != 2 {
			t.Errorf("%q: read %v, %d ends", more, read, ends)
		}
		if more != "" {
			continue
		}
		second := strings.Index(good, "O1205")
		line := 1 + strings.Count(good[:second+strings.Index(good[second:], " F0")], "\n")
		for _, e := range []struct {
			why, bad string
			visit    int
			what     string
			line     int
		}{
			{"the feed of the second", good[:second] + strings.Replace(good[second:], " F0", " F7", 1), 1, "feed 7", line},
			{"the second is another's", strings.Replace(good, "O1205", "O1207", 1), 1, "the file has no program O1205", 0},
			{"the first stands twice", strings.Replace(good, "O1205", "O1204", 1), 0, "O word after the first block", 0},
			{"the programs change places", strings.NewReplacer("O1204", "O1205", "O1205", "O1204").Replace(good), 0, "", 0},
		} {
			r := Check([]byte(e.bad), "", p, 0, e.visit)
			if r.Proven || !slices.ContainsFunc(r.Findings, func(f Finding) bool { return strings.Contains(f.What, e.what) && (e.line == 0 || f.Line == e.line) }) {
				t.Errorf("%s: %v", e.why, r.Findings)
			}
			if r := Check([]byte(e.bad), "", p, 0, 1-e.visit); e.line > 0 && !r.Proven {
				t.Errorf("%s: and the other is not proven: %v", e.why, r.Findings)
			}
		}
	}
}
