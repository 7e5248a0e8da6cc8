package files

import (
	"fmt"

	"borewright/process"
	"borewright/process/field/keys"
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
