package files

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// checker completes the job that was read and judges it as a whole.
type checker struct {
	*keys.Reader
	j *process.Job
}

// at is the station of an index, nil when it is not known.
func (c *checker) at(station int) *process.Station {
	if station < 0 || station >= len(c.j.Stations) {
		return nil
	}
	return &c.j.Stations[station]
}

// station finds the index of the station that a key names, -1 if there is none.
func (c *checker) station(key, name string) int {
	var names []string
	for i, s := range c.j.Stations {
		if s.Name == name {
			return i
		}
		if s.Name != "" {
			names = append(names, s.Name)
		}
	}
	allowed := "stations are " + source.Quoted(names)
	if len(names) == 0 || len(names) < len(c.j.Stations) {
		return -1 // a station lacks its name, and that has been said
	}
	if n := source.Nearest(name, names); n != "" {
		allowed = fmt.Sprintf("did you mean %q? ", n) + "Stations are " + source.Quoted(names)
	}
	c.Bad(key, fmt.Sprintf("there is no station %q", source.Show(name)), allowed)
	return -1
}

// UsualSizes are the smallest and largest that a cutter is usually set to in
// this bar; 0 where it has no step at the cutter. Common practice, no source.
func UsualSizes(b process.Bar) (least, most qty.Diameter) {
	at := stepAt(b, b.CutterAt)
	if at < 0 {
		return 0, 0
	}
	d := float64(b.Steps[at].Diameter)
	return qty.Diameter(math.Round(d * 1.06)), qty.Diameter(math.Round(d * 1.6))
}

// stepAt is the step that a place along the bar lies in, -1 beyond its ends.
func stepAt(b process.Bar, l qty.Length) int {
	var end qty.Length
	for i, s := range b.Steps {
		if end += s.Length; l > 0 && l <= end {
			return i
		}
	}
	return -1
}
