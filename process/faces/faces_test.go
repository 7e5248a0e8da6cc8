package faces_test

import (
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/files"
	"borewright/process/qty"
)

func both(t *testing.T, edits ...string) (*process.Job, error) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(edits); i += 2 {
		if !strings.Contains(text, edits[i]) {
			t.Fatalf("no %q in the job", edits[i])
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return files.Job("both.toml", []byte(text), nil)
}

// TestSeenFromEachFace: stations lie where plane geometry has them from each face, sweeps go to
// the face that they were made from, bores keep their places, and what is written of a bore is
// as it is seen from its own face.
func TestSeenFromEachFace(t *testing.T) {
	job, err := both(t)
	if err != nil {
		t.Fatal(err)
	}
	mm := func(l qty.Length) float64 { return l.MM() }
	type at struct {
		name     string
		from, to float64
	}
	for f, want := range map[process.Face][]at{
		process.NearFace: {{"shore seat", 0, 70}, {"middle web", 320, 340}, {"bridge seat", 700 - 60, 700}},
		process.FarFace:  {{"bridge seat", 0, 60}, {"middle web", 360, 380}, {"shore seat", 700 - 70, 700}},
	} {
		seen := faces.Seen(job, f)
		for i, w := range want {
			if s := seen.Stations[i]; s.Name != w.name || mm(s.From) != w.from || mm(s.To) != w.to {
				t.Errorf("from the %s face: %s from %g to %g, want %v", f, s.Name, mm(s.From), mm(s.To), w)
			}
		}
		for i, b := range seen.Bores {
			if seen.Stations[b.Station].Name != job.Stations[job.Bores[i].Station].Name {
				t.Errorf("from the %s face bore %d is %s", f, i+1, seen.Stations[b.Station].Name)
			}
			own := job.Bores[i].Wear[0]
			depth, clock := own.Depth, own.At[1] // 60°
			if b.Face != f {
				depth, clock = 700*qty.Millimetre-depth, 300
			}
			if b.Wear[0].Depth != depth || b.Wear[0].At[1] != clock {
				t.Errorf("from the %s face bore %d was read at %g, %g°", f, i+1, mm(b.Wear[0].Depth), b.Wear[0].At[1])
			}
		}
		for _, s := range seen.Sweeps {
			if s.From != f || seen.Stations[s.Station].Name != "shore seat" {
				t.Errorf("from the %s face a sweep of %s from the %s one", f, seen.Stations[s.Station].Name, s.From)
			}
		}
		if c := mm(seen.LineUp.Table.Centre); c != 350 {
			t.Errorf("from the %s face the table's centre lies at %g", f, c)
		}
		if len(seen.Sweeps) != []int{2, 1}[f] || seen.FromFar() != (f == process.FarFace) || !seen.Here(seen.Bores[f]) || seen.Here(seen.Bores[1-f]) {
			t.Errorf("from the %s face: %d sweeps", f, len(seen.Sweeps))
		}
	}
}

// throughSweep is the sweep of the shore seat from the far face, through the case.
const throughSweep = `[[sweep]]                 # from the far face, through the case: how the turn came out
station    = "shore seat"
swept_from = "far"
depth      = 640
diameter   = 162.02
droop      = 0.02
at         = [0, 45, 90, 135, 180, 225, 270, 315]
dial       = [0, 0.006, 0.012, 0.014, 0.010, 0.004, -0.002, -0.003]
`

// TestClosedEndHides: through a closed end the other face is not seen, and its bores have no
// station there.
func TestClosedEndHides(t *testing.T) {
	job, err := both(t, `to = 60, diameter`, `to = 60, blind = true, relief = 3, diameter`, throughSweep, "")
	if err != nil {
		t.Fatal(err)
	}
	for f := range []int{0, 1} {
		seen := faces.Seen(job, process.Face(f))
		if len(seen.Stations) != 2-f || seen.Stations[seen.Bores[f].Station].Face != process.Face(f) || seen.Bores[1-f].Station != -1 {
			t.Errorf("from the %s face: %d stations, bores at %d and %d", process.Face(f), len(seen.Stations), seen.Bores[0].Station, seen.Bores[1].Station)
		}
	}
}

// TestRefused: what does not go together is said at its place.
func TestRefused(t *testing.T) {
	for _, r := range []struct{ why, old, new, want string }{
		{"stations of the two faces meet", "face_to_face = 700", "face_to_face = 390", "seen from the near face it begins at 330 mm, inside \"middle web\", which ends at 340 mm there"},
		{"a station beyond the other face", "face_to_face = 700", "face_to_face = 330", "ends at 340 mm, beyond the other face, which lies at 330 mm"},
		{"no distance", "face_to_face = 700\n", "", "bores of both faces need the distance between the faces"},
		{"a bore from the other face than its station", `name = "bridge seat", face = "far"`, `name = "bridge seat", face = "near"`, "its depths count from the near face, and it is bored from the far one"},
		{"a sweep outside the bore, seen from there", "depth      = 640", "depth      = 40", "\"shore seat\" lies from 630 mm to 700 mm"},
		{"a sweep through a closed end", "to = 60, diameter", "to = 60, blind = true, relief = 3, diameter", "\"shore seat\" is not seen from the far face: \"bridge seat\" is closed"},
		{"no rotary table", `machine      = "cnc-110mm"`, `machine      = "hbm-4in"`, "no rotary table"},
	} {
		_, err := both(t, r.old, r.new)
		if err == nil || !strings.Contains(err.Error(), r.want) {
			t.Errorf("%s: %v, want %s", r.why, err, r.want)
		}
	}
}
