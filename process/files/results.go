package files

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"regexp"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// Results reads the results of a job. Bare lengths are in the job's units.
// The error, if any, is of type source.Errors. A last entry that was not written
// whole is left out, and Torn says where it begins.
func Results(name string, data []byte, job *process.Job) (*process.Results, error) {
	if name == "" {
		name = "job.results.toml"
	}
	whole, torn := SplitTorn(data)
	res := &process.Results{File: source.FileName(name)}
	if len(bytes.Trim(torn, "\x00")) > 0 {
		res.Torn = 1 + bytes.Count(whole, []byte("\n"))
	}
	var file entries
	r, err := keys.ReadIn(job.Units, name, "results file", whole, &file)
	if err != nil {
		return nil, err
	}
	c := &checker{r, job}
	for i := range file.all {
		file.all[i].Station = -1
	}
	(&library{r: r}).find(r.Links(), func(l keys.Link) int { return c.station(l.Path, l.Text) })
	ids := map[string]string{}
	for i := range file.all {
		m, at := &file.all[i].Measured, source.El("measured", i)
		c.measured(at, m)
		c.whole(at, file.all[i].check, whole)
		if first, twice := ids[m.ID]; twice && m.ID != "" {
			c.Bad(at+".id", "this entry stands in the file twice, first at "+first, "take one of them out")
		}
		ids[m.ID] = m.Place
		res.Entries = append(res.Entries, *m)
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return res, nil
}

// measured judges an entry against the job.
func (c *checker) measured(at string, m *process.Measured) {
	p := c.Place(at)
	m.Place = fmt.Sprintf("%s:%d:%d", c.File, p.Line, p.Col)
	if m.Station < 0 {
		return
	}
	st := c.j.Stations[m.Station]
	if c.j.BoreAt(m.Station) < 0 {
		c.Badf(at+".station", "name a station that the job bores", "%q is not bored by this job", st.Name)
	}
	from, to := c.j.Extent(m.Station)
	for i, s := range m.Sizes {
		if el := source.El(at+".size", i) + ".depth"; c.Has(el) && (s.Depth < from || s.Depth > to) {
			c.Badf(el, "depths count inward from the face that the spindle enters", "%s is outside of %q, which goes from %s to %s",
				c.Len(s.Depth), st.Name, c.Len(from), c.Len(to))
		}
	}
}

// written is an entry with its check; entries is a results file, which stands
// beside the job file and is only ever added to.
type (
	written struct {
		process.Measured
		check string
	}
	entries struct{ all []written }
)

// Describe says what the keys of an entry as it stands in the file are.
func (e *written) Describe(d *field.Desc) {
	e.Measured.Describe(d)
	d.Name(&e.check, "check").Example(`"0a1b2c3d"`).
		Says("sum of the entry's bytes (CRC-32, IEEE 802.3), which shows that it was written whole and not changed since")
}

// Describe says what the keys of a results file are.
func (e *entries) Describe(d *field.Desc) {
	field.List(d, &e.all, "measured", 0, 2000).Example(`[ { station = "idler", pass = 4, size = [ { diameter = 3.3697 } ] } ]`).
		Says("what was measured after a pass, one entry each time; written by \"borewright measured\", added at the end, never changed")
}

// whole checks that an entry with an id is as it was written.
func (c *checker) whole(at, check string, data []byte) {
	if !c.Given(at+".id") && !c.Given(at+".check") {
		return // by hand
	}
	if !c.Given(at + ".check") {
		c.Bad(at, "this entry was not written whole: its check is missing", "enter it again with \"borewright measured\" and take this one out")
		return
	}
	body := lineSpan(data, c.Place(at).Line, c.Place(at+".check").Line)
	if sum := entrySum(body); sum != check {
		c.Badf(at+".check", "enter the right figures as a new entry; to keep this one as it stands, take out its id and its check",
			"the entry is not as it was written: its sum is %s now", sum)
	}
}

// lineSpan is the text from one line up to another, both counted from 1.
func lineSpan(data []byte, from, to int) []byte {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	lines := bytes.SplitAfter(data, []byte("\n"))
	if from < 1 || to > len(lines) || from > to {
		return nil
	}
	return bytes.Join(lines[from-1:to-1], nil)
}

// entrySum is the check of an entry: CRC-32 (IEEE 802.3) of its text from the
// head to the line before the check, line ends as LF.
func entrySum(body []byte) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE(bytes.ReplaceAll(body, []byte("\r\n"), []byte("\n"))))
}

const entryHead = "[[measured]]\nid = \""

// checkLine is the last line of an entry, whatever spaces or remark somebody has put
// beside it.
var checkLine = regexp.MustCompile(`(?m)^[ \t]*check[ \t]*=[ \t]*["'][0-9a-fA-F]{8}["'][ \t]*(#.*)?\r?$`)

// SplitTorn parts a results file from a last entry that was cut short while it
// was written (the power failed, the process was killed), and from zero bytes at its
// end, which a file that had grown may hold after a power failure. Only an entry of our
// own writing can be told to be torn: it begins with its id and ends with its
// check. torn is empty when all is whole.
func SplitTorn(data []byte) (whole, torn []byte) {
	text := bytes.TrimRight(data, "\x00")
	at := bytes.LastIndex(text, []byte("\n[")) + 1
	last := text[at:]
	began := len(last) > 0 && last[0] == '['
	ours := began && (bytes.HasPrefix(last, []byte(entryHead)) || bytes.HasPrefix([]byte(entryHead), last))
	if !ours || checkLine.Match(last) {
		at = len(text)
	}
	return data[:at], data[at:]
}
