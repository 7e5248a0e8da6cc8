package doubt_test

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/files"
	"borewright/sheets/words"
)

// text is a file that the tests of process/files start from too, with each old text replaced by
// the new one that follows it.
func text(t *testing.T, path string, pairs ...string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	file := string(data)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(file, pairs[i]) {
			t.Fatalf("%s holds no %q to replace", path, pairs[i])
		}
		file = strings.Replace(file, pairs[i], pairs[i+1], 1)
	}
	return file
}

// A sound job in inches, and one in millimetres of a blind bore that is sleeved.
const (
	rebore = "../../testdata/process/base/rebore.toml"
	sleeve = "../../testdata/process/base/sleeve.toml"
)

// TestDoubts holds what a careful colleague would ask.
func TestDoubts(t *testing.T) {
	const wear = `wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] } ]`
	for _, row := range []struct {
		why, file string
		edits     []string
		want      []string
	}{
		{"nothing to ask", rebore, nil, []string{}},
		{"a relief at an open end", rebore, []string{`diameter = 3.546`, `diameter = 3.546, relief = 0.1`},
			[]string{`Station "seat" has a relief but is not said to be blind: is its end open?`}},
		{"a sleeve that is not needed", sleeve, []string{`diameter = 80, fit`, `diameter = 81, fit`},
			[]string{`Bore "idler" is sleeved to Ø81.000 mm, larger than it is now (Ø80.100 mm): could it be rebored without a sleeve?`}},
		{"a great deal to bore", rebore, []string{`diameter = 3.546`, `diameter = 3.0`, wear, `offset  = 0.01`},
			[]string{`Boring "seat" from Ø3.0000 in to Ø3.6264 in takes 0.6264 in on diameter, more than a fifth of it: is that meant?`}},
		{"wide limits", rebore, []string{`{ diameter = 3.625, fit = "H7" }`, `{ low = 3.6, high = 3.7 }`},
			[]string{`The limits of "seat" are 0.1000 in apart, more than a fiftieth of its size: is that meant?`}},
		{"wide roundness", rebore, []string{`ra      = 63`, `roundness = 0.003`},
			[]string{`The roundness allowed in "seat", 0.0030 in, is wider than its size tolerance, 0.0014 in.`}},
		{"readings on one side", rebore, []string{`at = [0, 90, 180, 270], radius`, `at = [0, 30, 60, 90], radius`},
			[]string{`The readings of "seat" at 6.2000 in leave 270° unseen: the worst of the wear may lie there.`}},
		{"readings across, no offset", rebore, []string{`at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755]`, `at = [0, 60, 120], across = [3.55, 3.56, 3.55]`},
			[]string{`Readings across "seat" do not tell where its axis is; state offset, or read the radius from the true axis.`}},
		{"readings below the diameter", rebore, []string{`[1.773,`, `[1.70,`},
			[]string{`The readings of "seat" go down to Ø3.4000 in, well below the diameter stated, Ø3.5460 in.`}},
		{"worn through the wall", rebore, []string{`diameter = 3.546`, `diameter = 3.546, wall = 0.05`, `1.782,`, `1.84,`},
			[]string{`The readings of "seat" say that it is worn by 0.0670 in on radius, and the wall is stated as 0.0500 in: are readings, diameter and wall in the right unit?`}},
		{"an edge along the wall", rebore, []string{`nose_radius = 0.031`, "nose_radius = 0.031\nlead = 30"},
			[]string{`Lead = 30 is counted from the direction of feed: the edge lies nearly along the wall. A bit ground 30° back from square has lead = 60.`}},
		{"nothing known of the axis", rebore, []string{wear, ``},
			[]string{`Nothing tells where the axis of "seat" stands: no readings and no offset. The plan takes it to be true.`}},
		{"a shoulder behind the bore", rebore, []string{"diameter = 3.546 },", "diameter = 3.546 },\n  { name = \"lip\", from = 7.26, to = 7.5, diameter = 3.2 },"},
			[]string{`Behind "seat" the smaller "lip" begins after 0.0100 in: the cutter needs 0.0418 in to run out and would mark its shoulder.`}},
		{"a standoff with table feed", rebore, []string{`feed_by = "table"`, `standoff = 2`},
			[]string{`A standoff is stated, but the table feeds: it is not used.`}},
		{"a choice of nothing", rebore, []string{`revision = `, "choose = \"one_pair\"\nrevision = "},
			[]string{`Choose is stated, but the job has its bar and its cutter: nothing is chosen. Leave choose out, or leave the bar or the cutter to the lists.`}},
		{"close to the face", rebore, []string{`length = 7.5`, `length = 5.75`},
			[]string{`The spindle nose comes within 0.5000 in of the face at the end of the cut.`}},
		{"a small standoff", rebore, []string{`feed_by = "table"`, "feed_by = \"quill\"\nstandoff = 0.5", `length = 7.5`, `length = 4.0`, `diameter = 4.75`, `diameter = 5.5`},
			[]string{`With 0.5000 in between nose and face the mouth of the bore can hardly be seen or gauged.`}},
		{"no standoff for a program", rebore, []string{`"hbm-5in"`, `"cnc-110mm"`, `feed_by = "table"`, `feed_by = "quill"`},
			[]string{`No standoff is stated: the nose is taken to stand 11.5000 in from the face, so that the quill alone brings the tip out to be set.`}},
		{"limits of the machine", rebore, []string{`[[sweep]]`, "[limits]\nspeed_most = 1000\nspring_rough = 0.004\nspring_finish = 0.005\n[[sweep]]"},
			[]string{`The speed limit of 1000 rev/min is above the fastest that hbm-5in has, 800.`,
				`A finishing pass may spring more (0.0050 in) than a roughing pass (0.0040 in): is that meant?`}},
		{"a thin sleeve", sleeve, []string{`outside  = 86`, `outside  = 82.5`},
			[]string{`The sleeve in "idler" keeps a wall of 1.235 mm; 2.063 mm is usual at this size.`}},
		{"no wall to press into", sleeve, []string{`, wall = 19, wall_most = 32`, ``},
			[]string{`No wall is stated for "idler": the pressure of the sleeve cannot be judged against the casting.`}},
		{"a transition fit", sleeve, []string{`outside  = 86`, "outside  = 86\nfit = \"H7/k6\""},
			[]string{`The fit H7/k6 can leave clearance at the ends of its limits: gauge both parts and pair them.`}},
		{"a wide gap", sleeve, []string{`outside  = 86`, "outside  = 86\nhold = \"bond\"\ngap = 0.3"},
			[]string{`A bonding gap of 0.300 mm is outside the usual 0.02 to 0.15 mm: see the maker's sheet of the compound.`}},
		{"half a sweep", rebore, []string{"at      = [0, 90, 180, 270]\ndial", "at      = [0, 30, 60, 180]\ndial"},
			[]string{`The sweep of "cover" reads only one side of it (180° unseen): the centre it gives is a guess.`}},
		{"a long way off", rebore, []string{`0.0010, 0.0005]`, `0.100, 0.05]`},
			[]string{`The dial in "cover" runs 0.1000 in: line the work up nearer first, or check the units.`}},
	} {
		t.Run(row.why, func(t *testing.T) {
			j, err := files.Job("job.toml", []byte(text(t, row.file, row.edits...)), nil)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(row.want, doubts(j)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestDoubtsOfOwnFiles(t *testing.T) {
	open := func(path string) ([]byte, error) {
		name := map[string]string{"mill.toml": "machines/hbm-5in", "iron.toml": "materials/gray-iron-200hb", "edge.toml": "cutters/hss", "core.toml": "bars/tungsten-alloy"}[path]
		file, _, _ := strings.Cut(text(t, "../files/catalog/"+name+".toml"), "[source]") // where the speeds come from stays in
		return []byte(file), nil
	}
	j, err := files.Job("job.toml", []byte(text(t, rebore, `"hbm-5in"`, `"mill.toml"`, `"gray-iron-200hb"`, `"iron.toml"`,
		`"carbide"`, `"edge.toml"`, `[bar]`, "[bar]\nmaterial = \"core.toml\"")), open)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{`The material file "iron" does not say where its figures come from.`,
		`The cutter material file "edge" does not say where its figures come from.`,
		`The bar material file "core" does not say where its figures come from.`,
		`The machine file "mill" does not say where its figures come from; stiffness above all is better measured.`}
	if diff := cmp.Diff(want, doubts(j)); diff != "" {
		t.Error(diff)
	}
}

// doubts is what a person reads of them.
func doubts(j *process.Job) []string { return words.In(j.Units).Sentences(doubt.Of(j)) }
