package process

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"math"
	"regexp"

	"borewright/process/qty"
)

// Results is what was measured on a job, in the order in which it was entered.
type Results struct {
	File    string
	Entries []Measured
	Torn    int // line at which an entry begins that was not written whole, and is not counted; 0: none
}

// Measured is one entry: what the gauge said after one pass.
type Measured struct {
	ID       string
	Station  int // index into Job.Stations
	Visit    int // 0: not said
	Pass     int
	Kind     string // "" where not said
	Revision string
	Setting  qty.Diameter // of the cutter, in fact; 0: as planned
	Before   qty.Diameter // the bore before the pass; 0: as planned
	Low      qty.Diameter // what the sheet said to expect; 0: as planned
	High     qty.Diameter
	Feed     qty.Length // a revolution; 0: as planned
	Speed    qty.RevPerMin
	Tooling  string // Job.Tooling when it was cut; "": that of the job as it is now
	Sweeps   string // Job.LinedUpBy then; "": as it is now
	Sizes    []Size
	Marked   []float64  // witness cut: clock positions where it marked, degrees
	Bare     []float64  // and where not
	Ra       qty.Length // 0: not measured
	Remark   string
	By, When string
	Place    string // "job.results.toml:12:1"
}

// Size is one reading of the bore gauge, at a place or without one.
type Size struct {
	Depth    qty.Length // from the face; negative: not said
	At       float64    // clock position, degrees; negative: not said
	Diameter qty.Diameter
}

// Unplaced is the depth of a reading whose depth was not said.
const Unplaced qty.Length = -1

// Least and Most are the smallest and the largest of the readings, Mean their
// middle weighed alike.
func (m *Measured) Least() qty.Diameter { return m.over(func(a, b qty.Diameter) bool { return b < a }) }

// Most is the largest reading.
func (m *Measured) Most() qty.Diameter { return m.over(func(a, b qty.Diameter) bool { return b > a }) }

func (m *Measured) over(better func(a, b qty.Diameter) bool) qty.Diameter {
	var d qty.Diameter
	for i, s := range m.Sizes {
		if i == 0 || better(d, s.Diameter) {
			d = s.Diameter
		}
	}
	return d
}

// Mean is the mean of the readings, each depth weighed alike.
func (m *Measured) Mean() qty.Diameter {
	sum, n := map[qty.Length]float64{}, map[qty.Length]float64{}
	for _, s := range m.Sizes {
		sum[s.Depth] += float64(s.Diameter)
		n[s.Depth]++
	}
	var order []qty.Length // the sum must not hang on the order of a map
	seen := map[qty.Length]bool{}
	for _, s := range m.Sizes {
		if !seen[s.Depth] {
			seen[s.Depth] = true
			order = append(order, s.Depth)
		}
	}
	total := 0.0
	for _, d := range order {
		total += sum[d] / n[d]
	}
	return qty.Diameter(math.Round(total / math.Max(1, float64(len(order)))))
}

// LoadResults reads the results of a job. Bare lengths are in the job's units.
// The error, if any, is of type Errors. A last entry that was not written
// whole is left out, and Torn says where it begins.
func LoadResults(name string, data []byte, job *Job) (*Results, error) {
	if name == "" {
		name = "job.results.toml"
	}
	whole, torn := SplitTorn(data)
	res := &Results{File: fileName(name)}
	if len(torn) > 0 {
		res.Torn = 1 + bytes.Count(whole, []byte("\n"))
	}
	p := &problems{file: fileName(name)}
	src := parse(whole, p)
	if src == nil {
		return nil, p.err()
	}
	r := &reader{problems: p, schema: newSchema("results file", resultKeys()), at: src.at, tiny: src.tiny, units: job.Units, known: true,
		vals: map[string]any{}, given: map[string]bool{}, counts: map[string]int{}, meant: map[string]bool{}}
	r.table("", "", src.values)
	c := &checker{reader: r, j: job}
	ids := map[string]string{}
	for i := range r.counts["measured"] {
		m := c.measured(el("measured", i))
		c.whole(el("measured", i), whole)
		if first, twice := ids[m.ID]; twice && m.ID != "" {
			c.bad(el("measured", i)+".id", "this entry stands in the file twice, first at "+first, "take one of them out")
		}
		ids[m.ID] = m.Place
		res.Entries = append(res.Entries, m)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return res, nil
}

func (c *checker) measured(at string) Measured {
	p := c.place(at)
	k := at + "."
	m := Measured{
		ID: c.text(k + "id"), Station: c.station(k + "station"), Visit: get[int](c.reader, k+"visit"), Pass: get[int](c.reader, k+"pass"),
		Kind: c.text(k + "kind"), Revision: c.text(k + "revision"), Setting: c.diameter(k + "setting"), Before: c.diameter(k + "before"),
		Tooling: c.text(k + "tooling"), Sweeps: c.text(k + "sweeps"),
		Low: c.diameter(k + "low"), High: c.diameter(k + "high"),
		Feed: c.length(k + "feed"), Speed: qty.RevPerMin(c.num(k + "speed")), Ra: c.length(k + "ra"),
		Marked: list[float64](c.reader, k+"marked"), Bare: list[float64](c.reader, k+"bare"),
		Remark: c.text(k + "remark"), By: c.text(k + "by"), When: c.text(k + "when"),
		Place: fmt.Sprintf("%s:%d:%d", c.file, p.Line, p.Col),
	}
	for _, angles := range [][]float64{m.Marked, m.Bare} {
		for i, a := range angles {
			angles[i] = math.Mod(a, 360)
		}
	}
	bored := false
	for _, b := range c.j.Bores {
		bored = bored || b.Station == m.Station
	}
	if m.Station >= 0 && !bored {
		c.badf(k+"station", "name a station that the job bores", "%q is not bored by this job", c.j.Stations[m.Station].Name)
	}
	for i := range c.counts[k+"size"] {
		el := el(k+"size", i) + "."
		s := Size{Depth: Unplaced, At: -1, Diameter: c.diameter(el + "diameter")}
		if c.given[el+"depth"] {
			s.Depth = c.length(el + "depth")
			if m.Station >= 0 && c.has(el+"depth") {
				if st := c.j.Stations[m.Station]; s.Depth < st.From || s.Depth > st.To {
					c.badf(el+"depth", "depths count inward from the face that the spindle enters", "%s is outside of %q, which goes from %s to %s",
						c.len(s.Depth), st.Name, c.len(st.From), c.len(st.To))
				}
			}
		}
		if c.given[el+"at"] {
			s.At = math.Mod(c.num(el+"at"), 360)
		}
		m.Sizes = append(m.Sizes, s)
	}
	return m
}

// whole checks that an entry with an id is as it was written.
func (c *checker) whole(at string, data []byte) {
	if !c.given[at+".id"] {
		return // by hand
	}
	if !c.given[at+".check"] {
		c.bad(at, "this entry was not written whole: its check is missing", "enter it again with \"borewright measured\" and take this one out")
		return
	}
	body := lineSpan(data, c.place(at).Line, c.place(at+".check").Line)
	if sum := entrySum(body); sum != c.text(at+".check") {
		c.badf(at+".check", "enter the right figures as a new entry; to keep this one as it stands, take out its id and its check",
			"the entry is not as it was written: its sum is %s now", sum)
	}
}

// lineSpan is the text from one line up to another, both counted from 1.
func lineSpan(data []byte, from, to int) []byte {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	starts := lineTable(data)
	if from < 1 || to > len(starts) || from > to {
		return nil
	}
	return data[starts[from-1]:starts[to-1]]
}

// entrySum is the check of an entry: CRC-32 (IEEE 802.3) of its text from the
// head to the line before the check, line ends as LF.
func entrySum(body []byte) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE(bytes.ReplaceAll(body, []byte("\r\n"), []byte("\n"))))
}

const entryHead = "[[measured]]\nid = \""

var checkLine = regexp.MustCompile(`(?m)^check = "[0-9a-f]{8}"\r?$`)

// SplitTorn parts a results file from a last entry that was cut short while it
// was written (the power failed, the process was killed). Only an entry of our
// own writing can be told to be torn: it begins with its id and ends with its
// check. torn is empty when all is whole.
func SplitTorn(data []byte) (whole, torn []byte) {
	at := bytes.LastIndex(data, []byte("\n[")) + 1
	if at == 0 && !bytes.HasPrefix(data, []byte("[")) {
		return data, nil
	}
	last := data[at:]
	ours := bytes.HasPrefix(last, []byte(entryHead)) || bytes.HasPrefix([]byte(entryHead), last)
	if !ours || checkLine.Match(last) {
		return data, nil
	}
	return data[:at], last
}
