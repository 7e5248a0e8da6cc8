package choice

import (
	"os"
	"strings"
	"testing"

	"borewright/process/files"
)

// TestAChangeOfToolsCosts: two bores, each with two pairs. By itself each bore is cut sooner by a pair
// of its own, in 10 + 10 minutes. To change tools between them costs more than the one minute that
// this saves: one pair cuts both, in 21.
func TestAChangeOfToolsCosts(t *testing.T) {
	first, second := &pair{n: 1}, &pair{n: 2}
	bore := func(i int, minutes ...float64) *part {
		x := &part{bores: []int{i}, free: true}
		for k, p := range []*pair{first, second} {
			o := &option{p: p, weigh: minutes[k], sketch: minutes[k]}
			o.Minutes = minutes[k]
			x.all = append(x.all, o)
		}
		x.kept = x.all
		return x
	}
	for change, want := range map[float64][2]int{0: {1, 2}, 0.5: {1, 2}, 5: {2, 2}} {
		s := &search{Asked: &Asked{Change: change}, parts: []*part{bore(0, 10, 11), bore(1, 12, 10)}, order: []int{0, 1}, tried: map[string]bool{}}
		list := s.lightest(1000, 1)
		if len(list) != 1 || list[0][0].p.n != want[0] || list[0][1].p.n != want[1] {
			t.Errorf("a change costs %g minutes: %d choices, want pairs %v", change, len(list), want)
			continue
		}
		sum := map[[2]int]float64{{1, 2}: 20 + change, {2, 2}: 21}[want]
		if got := s.sum(list[0]); got != sum {
			t.Errorf("a change costs %g minutes: it weighs %g, by hand %g", change, got, sum)
		}
	}
}

// TestAloneIsSeenFromItsFace: a bore of a job of both faces is sketched alone as its bar meets it, from
// its own face: the bridge's casting is 700 mm through, its web stands at 320 to 340 mm from the near
// face, each seat in its own.
func TestAloneIsSeenFromItsFace(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("both.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	type station struct {
		name     string
		from, to float64
	}
	for bore, want := range [][]station{
		{{"shore seat", 0, 70}, {"middle web", 320, 340}, {"bridge seat", 640, 700}},
		{{"bridge seat", 0, 60}, {"middle web", 360, 380}, {"shore seat", 630, 700}},
	} {
		k, err := (&Asked{Job: job}).alone(bore, false, &pair{}) // with the job's own bar and cutter
		if err != nil {
			t.Fatal(err)
		}
		var got []station
		for _, s := range k.Stations {
			got = append(got, station{s.Name, s.From.MM(), s.To.MM()})
		}
		for i, w := range want {
			if len(got) != len(want) || got[i] != w {
				t.Errorf("bore %d: %v, want %v", bore+1, got, want)
				break
			}
		}
	}
}

// TestNamedByAllIsNotOpen: where every bore names its bar, the bar that is open cuts nothing: pairs differ by their
// cutters alone, with the bar of the first bore. Where one bore names none, all bars are tried.
func TestNamedByAllIsNotOpen(t *testing.T) {
	read := func(name string) []byte {
		data, err := os.ReadFile("../../testdata/jobs/net-hauler/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	for rear, want := range map[string]int{"bar = \"B 50\"\n": 1, "": 6} {
		text := strings.NewReplacer("station = \"front web\"\nrepair", "station = \"front web\"\nbar = \"F 80\"\nrepair", "station = \"rear web\"\nrepair", "station = \"rear web\"\n"+rear+"repair").Replace(string(read("job.toml")))
		job, err := files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return read("rack.toml"), nil })
		if err != nil {
			t.Fatal(err)
		}
		all, err := (&Asked{Job: job}).pairs()
		bars := map[string]bool{}
		for _, p := range all {
			bars[p.Bar] = true
		}
		if err != nil || len(bars) != want || len(all) != want*len(job.Drawer) || !bars["F 80"] {
			t.Errorf("with %q: %d pairs of %v, %v", rear, len(all), bars, err)
		}
	}
}
