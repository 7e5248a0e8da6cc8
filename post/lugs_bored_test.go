package post_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"borewright/post"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// lugMill is a mill of the test's own that goes by the words of a program, in inches: what the bar
// gives at each lug, µm/N, how hard the metal pushes against what handbooks say, what each setting
// misses, mm on diameter. It shares nothing with planner, writer or reader.
type lugMill struct {
	gives  [3]float64
	push   float64
	misses func() float64
	lugs   [3][2]float64 // where they lie, in
	stands [3]float64    // how wide they are, mm
	strokes
}

// strokes count how often each lug was fed through, inward and outward.
type strokes struct{ in, out [3]int }

var (
	setTo  = regexp.MustCompile(`(?:SET|LEAVE) CUTTER (?:TO|AT) DIA ([0-9.]+) IN`)
	word   = regexp.MustCompile(`([GZF])(-?[0-9.]+)`)
	holdAt = regexp.MustCompile(`HOLD AFTER PASS`)
)

// run goes through a program up to the stop at which it is measured.
func (m *lugMill) run(t *testing.T, program string) {
	t.Helper()
	setting, depth, feed, move := 0.0, -99.0, 0.0, ""
	for _, line := range strings.Split(program, "\n") {
		if s := setTo.FindStringSubmatch(line); s != nil {
			d, _ := strconv.ParseFloat(s[1], 64)
			setting = d*25.4 + m.misses()
		}
		if holdAt.MatchString(line) && setting > 0 && m.in != [3]int{} {
			return
		}
		if strings.HasPrefix(line, "(") {
			continue
		}
		from := depth
		for _, w := range word.FindAllStringSubmatch(line, -1) {
			v, _ := strconv.ParseFloat(w[2], 64)
			switch {
			case w[1] == "G" && (v == 0 || v == 1):
				move = w[2]
			case w[1] == "F":
				feed = v
			case w[1] == "Z":
				depth = -v
			}
		}
		for i, at := range m.lugs {
			near, far := min(from, depth), max(from, depth)
			switch {
			case from < -50 || near >= at[1] || far <= at[0]: // not in this lug
			case move == "0":
				t.Errorf("rapid in lug %d: %s", i+1, line)
			case near > at[0] || far < at[1]:
				t.Errorf("lug %d is fed through in part: %s", i+1, line)
			default:
				m.stands[i] = m.bores(i, setting, m.stands[i], feed*25.4)
				if depth > from {
					m.in[i]++
				} else {
					m.out[i]++
				}
			}
		}
	}
	t.Error("no stop to measure")
}

// bores is the diameter that a setting makes of a lug that measures so much before, mm. Radial force
// by Kienzle: 1700 N/mm² at a chip of 1 mm, falling with its thickness to the power of 0.25, of
// which half pushes off (cast steel, from memory). The depth that is cut is what spring leaves.
func (m *lugMill) bores(lug int, setting, before, feed float64) float64 {
	depth := (setting - before) / 2
	if depth <= 0 {
		return before
	}
	cut := depth
	for range 200 {
		chip := feed * math.Sqrt(cut/(cut+0.4))
		next := max(0, depth-m.gives[lug]*1e-3*m.push*0.5*1700*math.Pow(chip, -0.25)*cut*feed)
		cut = (cut + next) / 2
	}
	return before + 2*cut
}

// lugsOnControl is the ferry ramp on a mill with a control, its lugs cut through at one setting.
func lugsOnControl(t *testing.T) *process.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "jobs", "ferry-ramp", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `"hbm-5in"`, `"cnc-110mm"`, 1)
	text = strings.ReplaceAll(text, "clearance = [0.004, 0.008]", "clearance = [0.0048, 0.0072]")
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// Bored by the programs as they are written, on mills whose bar gives otherwise at each lug, whose
// metal pushes harder or softer and whose settings miss, each stop entered for all lugs and the
// rest written anew, every lug lands within its limits as often as the plan claims.
func TestLugsLandByTheirPrograms(t *testing.T) {
	job := lugsOnControl(t)
	first := plan.Make(job)
	rng := rand.New(rand.NewPCG(18, 4))
	landed, bored, claim := 0, 0, 1.0
	for _, b := range first.Bores {
		claim = min(claim, b.Visits[len(b.Visits)-1].Budget.Chance)
	}
	for range slow.Rounds(t, "mills", 10, 1) {
		half := job.Limits.SettingError.MM() // 19 times in 20
		m := &lugMill{push: 0.75 + rng.Float64()*0.5, misses: func() float64 { return rng.NormFloat64() * half / 1.96 }}
		for i := range m.gives {
			m.gives[i] = 0.05 + rng.Float64()*0.05
			st := first.Bores[i].Station
			m.lugs[i] = [2]float64{st.From.MM() / 25.4, st.To.MM() / 25.4}
			m.stands[i] = first.Bores[i].Visits[0].Start.MM()
		}
		p, stops := first, 0
		var all []process.Measured
		for ; len(p.Bores) > 0 && stops < 6; stops++ {
			if !p.Feasible || len(p.Programs()) == 0 || len(p.Bores[0].Visits[0].Together) != 3 {
				t.Fatalf("stop %d: not at one setting: %v", stops, p.Reasons)
			}
			var out bytes.Buffer
			if err := post.Write(&out, p, 0, 0); err != nil {
				t.Fatal(err)
			}
			m.strokes = strokes{}
			m.run(t, out.String())
			if m.in != m.out || m.in[0] == 0 || m.in[0] != m.in[1] || m.in[1] != m.in[2] {
				t.Fatalf("fed in %v and out %v times", m.in, m.out)
			}
			for i := range p.Bores {
				b := &p.Bores[i]
				all = append(all, entered(t, b, m.stands[i]))
			}
			p = plan.MakeAfter(job, &process.Results{File: "job.results.toml", Entries: all})
		}
		if stops < 3 || len(p.Bores) > 0 {
			t.Fatalf("%d stops, %d bores left", stops, len(p.Bores))
		}
		for i, d := range m.stands {
			f := job.Bores[i].Finish
			if bored++; d >= f.Low.MM() && d <= f.High.MM() {
				landed++
			} else {
				t.Logf("lug %d: %.4f, %.4f to %.4f is asked for", i+1, d, f.Low.MM(), f.High.MM())
			}
		}
	}
	least := claim - 3*math.Sqrt(claim*(1-claim)/float64(bored)) - 0.5/float64(bored)
	if share := float64(landed) / float64(bored); share < least {
		t.Errorf("%d of %d lugs land, the plan claims %.4f", landed, bored, claim)
	}
	t.Logf("%d of %d, claimed %.4f", landed, bored, claim)
}

// entered is what the gauge says of a bore after the pass that is measured next.
func entered(t *testing.T, b *plan.Bore, found float64) process.Measured {
	t.Helper()
	v := &b.Visits[0]
	before := v.Start
	for _, q := range v.Passes {
		if q.Hold == nil {
			before = q.Expected
			continue
		}
		m := process.Measured{Station: b.Bore.Station, Visit: v.N, Pass: q.N, Kind: q.Kind.Cut(), Setting: q.Setting, Before: before, Feed: q.Feed, Speed: q.Speed, Place: "job.results.toml:2:1"}
		for i := range 2 {
			m.Sizes = append(m.Sizes, process.Size{Depth: b.Station.From, At: float64(90 * i), Diameter: qty.DiameterMM(found)})
		}
		return m
	}
	t.Fatal("nothing to measure")
	return process.Measured{}
}
