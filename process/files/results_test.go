package files

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/qty"
)

func resultsJob(t testing.TB) *process.Job {
	t.Helper()
	job, err := Job("job.toml", []byte(reboreJob), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func entry(id string) process.Measured {
	return process.Measured{
		ID: id, Station: 1, Visit: 1, Pass: 2, Kind: process.SemiFinishCut, Revision: "A", Setting: qty.Diameter(qty.FromInches(3.6200)),
		Low: qty.Diameter(qty.FromInches(3.6175)), High: qty.Diameter(qty.FromInches(3.6187)),
		Before: qty.Diameter(qty.FromInches(3.59)), Feed: qty.FromInches(0.005), Speed: 90, WayOut: process.FeedOut, Land: 50_000, CutTo: qty.FromInches(6.5), Tooling: "5b1e09c4", Sweeps: "00c41d7a",
		Program: "ID-4-A-seat-1.nc", ProgramSum: "14EB-766B",
		Sizes: []process.Size{
			{Depth: qty.FromInches(6.1), At: 0, Diameter: qty.Diameter(qty.FromInches(3.6181))},
			{Depth: qty.FromInches(7.2), At: 90, Diameter: qty.Diameter(qty.FromInches(3.61835))},
			{Depth: process.Unplaced, At: -1, Diameter: qty.DiameterMM(91.9)},
		},
		Marked: []float64{0, 90}, Bare: []float64{180}, Ra: qty.FromMicroInches(55), Remark: `a "word" [[and]] a \ = '# no remark`, By: "second shift", When: "2026-03-02 14:20",
		Gauge: "BG-3", Master: "ring 3.6000", WorkTemp: qty.FromCelsius(26.3), GaugeTemp: qty.FromCelsius(20),
	}
}

// What is written is what is read, to the nanometre.
func TestResultsRoundTrip(t *testing.T) {
	job := resultsJob(t)
	a, b := entry("aa"), entry("bb")
	text := append(Entry(job, &a), Entry(job, &b)...)
	got, err := Results("job.results.toml", text, job)
	if err != nil {
		t.Fatal(err)
	}
	a.Place, b.Place = "job.results.toml:2:1", ""
	b.Place = got.Entries[1].Place
	if diff := cmp.Diff(&process.Results{File: "job.results.toml", Entries: []process.Measured{a, b}}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if m := b.Mean(); m != qty.Diameter((int64(b.Sizes[0].Diameter)+int64(b.Sizes[1].Diameter)+int64(b.Sizes[2].Diameter)+1)/3) {
		t.Errorf("mean %v", m)
	}
	if b.Least() != b.Sizes[0].Diameter || b.Most() != b.Sizes[1].Diameter {
		t.Error("least and most")
	}
	name := "../../testdata/process/results/seat.toml"
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile(name, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	stored, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(stored), string(text)); diff != "" {
		t.Errorf("%s (-) and what is written now (+):\n%s", name, diff)
	}
}

// An entry cut short at any byte is left out, said, and takes nothing else
// with it; one cut behind its last digit is whole.
func TestTornAtEveryByte(t *testing.T) {
	job := resultsJob(t)
	first, second := entry("first"), entry("second")
	a, b := Entry(job, &first), Entry(job, &second)
	for n := range len(b) + 1 {
		data := append(append([]byte(nil), a...), b[:n]...)
		got, err := Results("", data, job)
		if err != nil {
			t.Fatalf("cut after %d of %d bytes: %v", n, len(b), err)
		}
		whole := n >= len(b)-1 // the line end may be missing
		if want := map[bool]int{true: 2, false: 1}[whole]; len(got.Entries) != want {
			t.Fatalf("cut after %d of %d bytes: %d entries", n, len(b), len(got.Entries))
		}
		if torn := got.Torn > 0; torn != (n > 1 && !whole) {
			t.Errorf("cut after %d of %d bytes: torn at line %d", n, len(b), got.Torn)
		}
	}
}

// A good entry stays one whatever a hand has put beside its check, and zero bytes behind
// it, as a power failure leaves them in a file that had grown, are nothing.
func TestWholeAllTheSame(t *testing.T) {
	job := resultsJob(t)
	first, second := entry("first"), entry("second")
	a, b := string(Entry(job, &first)), string(Entry(job, &second))
	for why, text := range map[string]string{
		"a remark":             strings.TrimSuffix(b, "\n") + "  # seen by the foreman\n",
		"a remark below":       b + "# seen by the foreman\n\n",
		"spaces":               strings.Replace(strings.TrimSuffix(b, "\n"), "check = ", "  check  =  ", 1) + " \t\n",
		"no line end":          strings.TrimSuffix(b, "\n"),
		"zeros":                b + strings.Repeat("\x00", 4096),
		"zeros, no line end":   strings.TrimSuffix(b, "\n") + "\x00\x00",
		"a remark, then zeros": strings.TrimSuffix(b, "\n") + " # seen\n\x00",
	} {
		whole, torn := SplitTorn([]byte(a + text))
		if n := len(strings.Trim(string(torn), "\x00")); n > 0 {
			t.Errorf("%s: %d bytes are torn off", why, n)
		}
		if string(whole)+string(torn) != a+text {
			t.Errorf("%s: the parts are not the file", why)
		}
		got, err := Results("", []byte(a+text), job)
		if err != nil || len(got.Entries) != 2 || got.Torn != 0 {
			t.Errorf("%s: %v, %+v", why, err, got)
		}
	}
	for why, text := range map[string]string{"cut short, then zeros": b[:len(b)/2] + "\x00\x00\x00", "nothing but the head and zeros": b[:12] + "\x00"} {
		got, err := Results("", []byte(a+text), job)
		if err != nil || len(got.Entries) != 1 || got.Torn == 0 {
			t.Errorf("%s: %v, %+v", why, err, got)
		}
	}
	if got, err := Results("", make([]byte, 4096), job); err != nil || len(got.Entries) != 0 || got.Torn != 0 {
		t.Errorf("zeros alone: %v, %+v", err, got)
	}
}

// Mistakes in a results file are told at their place, as in a job.
func TestBadResults(t *testing.T) {
	job := resultsJob(t)
	e := entry("aa")
	good := string(Entry(job, &e))
	for _, row := range []struct{ why, text, want string }{
		{"by hand, bare lengths in the job's units", "[[measured]]\nstation = \"seat\"\npass = 2\nsize = [ { diameter = 3.61 } ]\n", ""},
		{"temperatures by hand, bare and with a unit", "[[measured]]\nstation = \"seat\"\npass = 2\nsize = [ { diameter = 3.61 } ]\nwork_temperature = 79\ngauge_temperature = \"20 C\"\n", ""},
		{"hotter than any work that is gauged", "[[measured]]\nstation = \"seat\"\npass = 2\nsize = [ { diameter = 3.61 } ]\nwork_temperature = 500\n", "500 °F is out of range; allowed is -4 to 140 °F"},
		{"no temperature", "[[measured]]\nstation = \"seat\"\npass = 2\nsize = [ { diameter = 3.61 } ]\nwork_temperature = \"warm\"\n", "write a temperature (°F)"},
		{"a changed digit", strings.Replace(good, "3.6181", "3.6191", 1), "is not as it was written"},
		{"check taken out in the middle", strings.Replace(good, "check", "#", 1) + good, "not written whole"},
		{"the same twice", good + good, "stands in the file twice, first at job.results.toml:2:1"},
		{"no station of the job", "[[measured]]\nstation = \"seet\"\npass = 2\nsize = [ { diameter = 3.61 } ]\n", "did you mean \"seat\"?"},
		{"not bored", "[[measured]]\nstation = \"cover\"\npass = 2\nsize = [ { diameter = 3.61 } ]\n", "not bored by this job"},
		{"out of the bore", "[[measured]]\nstation = \"seat\"\npass = 2\nsize = [ { depth = 2, diameter = 3.61 } ]\n", "outside of \"seat\""},
		{"no size", "[[measured]]\nstation = \"seat\"\npass = 2\n", "measured[1].size: is missing"},
		{"a key misspelt", "[[measured]]\nstation = \"seat\"\npas = 2\nsize = [ { diameter = 3.61 } ]\n", "did you mean pass?"},
	} {
		_, err := Results("job.results.toml", []byte(row.text), job)
		switch {
		case row.want == "" && err != nil:
			t.Errorf("%s: %v", row.why, err)
		case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
			t.Errorf("%s: %v; want %q", row.why, err, row.want)
		}
	}
	edited := strings.ReplaceAll(good, "\n", "\r\n")
	if _, err := Results("", []byte(edited), job); err != nil {
		t.Errorf("line ends of another system: %v", err)
	}
}

func FuzzLoadResults(f *testing.F) {
	job := resultsJob(f)
	e := entry("aa")
	other := entry("bb")
	two := append(Entry(job, &e), Entry(job, &other)...)
	for _, seed := range [][]byte{nil, Entry(job, &e), two, two[:len(two)-7], []byte("[[measured]]\n"), []byte("[[measured]]\nsize = [{}]\ncheck = \"0\"\n"), []byte("\x00")} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if res, err := Results("r.toml", data, job); err == nil {
			for _, m := range res.Entries {
				_ = fmt.Sprint(m.Mean(), m.Least(), m.Most())
			}
		}
	})
}
