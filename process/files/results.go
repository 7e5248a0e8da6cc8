package files

import (
	"fmt"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/grown"
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
	res := &process.Results{File: source.FileName(name), Torn: grown.TornAt(whole, torn)}
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
	for i := range file.all {
		m, at := &file.all[i].Measured, source.El("measured", i)
		c.measured(at, m)
		grown.Held(r, at, file.all[i].check, whole, "borewright measured")
		res.Entries = append(res.Entries, *m)
	}
	grown.Twice(r, len(res.Entries), func(i int) (at, id string) { return source.El("measured", i), res.Entries[i].ID })
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

// entryName is the table that an entry is.
const entryName = "measured"

// SplitTorn parts a results file from a last entry that was cut short while it was written;
// see grown.SplitTorn.
func SplitTorn(data []byte) (whole, torn []byte) { return grown.SplitTorn(entryName, data) }
