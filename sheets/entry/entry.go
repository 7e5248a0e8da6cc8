// Package entry puts an entry of the results file together: from texts as they are given on a
// command line, and from a talk with the person at the terminal, where each answer is checked
// as it is given. What an entry leaves out, and what looks like a slip, is process/record's.
package entry

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/sheets/words"
)

// Given is an entry in texts, as a person writes it. Bare figures are in the job's units.
type Given struct {
	Station               string
	Pass                  int
	Sizes                 []string // DIAMETER, DEPTH=DIAMETER or DEPTH@CLOCK=DIAMETER
	Setting, WayOut, Land string
	Marked, Bare          []string // clock positions
	Ra, Remark            string
	By, When              string
	Gauge, Master         string
	WorkTemp, GaugeTemp   string
}

// Entry is the entry that is meant, completed from the plan that was worked to. The time is
// now where none is given. The error says which text cannot be taken, by its flag.
func (g *Given) Entry(job *process.Job, p *plan.Plan, now time.Time) (process.Measured, error) {
	var m process.Measured
	station, err := stationOf(job, p, g.Station)
	if err != nil {
		return m, err
	}
	m.Station = station
	if _, next, ok := record.Next(p, job.Stations[station].Name); ok && g.Pass == 0 {
		g.Pass = next.N
	}
	if g.Pass == 0 {
		return m, fmt.Errorf("nothing is left to measure at %q; name the --pass to enter it again", job.Stations[station].Name)
	}
	m.Pass = g.Pass
	if m, err = record.Fill(p, m); err != nil {
		return m, InWords(job, err)
	}
	u := job.Units
	take := func(flag, text string, into func() error) {
		if err == nil && text != "" {
			if err = into(); err != nil {
				err = fmt.Errorf("%s: %w", flag, err)
			}
		}
	}
	take("--setting", g.Setting, func() (err error) { m.Setting, err = diameterOf(u, g.Setting); return })
	take("--way-out", g.WayOut, func() (err error) { m.WayOut, err = process.OutByOf(g.WayOut); return })
	take("--land", g.Land, func() (err error) { m.Land, err = landOf(u, g.Land); return })
	for _, s := range g.Sizes {
		take("--size "+s, s, func() error {
			size, err := sizeOf(job, station, s)
			m.Sizes = append(m.Sizes, size)
			return err
		})
	}
	take("--marked", strings.Join(g.Marked, ","), func() (err error) { m.Marked, err = clocksOf(g.Marked); return })
	take("--bare", strings.Join(g.Bare, ","), func() (err error) { m.Bare, err = clocksOf(g.Bare); return })
	take("--ra", g.Ra, func() (err error) { m.Ra, err = raOf(u, g.Ra); return })
	take("--work-temp", g.WorkTemp, func() (err error) { m.WorkTemp, err = temperatureOf(u, g.WorkTemp); return })
	take("--gauge-temp", g.GaugeTemp, func() (err error) { m.GaugeTemp, err = temperatureOf(u, g.GaugeTemp); return })
	take("--by", g.By, func() (err error) { m.By, err = nameOf(g.By); return })
	take("--gauge", g.Gauge, func() (err error) { m.Gauge, err = nameOf(g.Gauge); return })
	take("--master", g.Master, func() (err error) { m.Master, err = nameOf(g.Master); return })
	take("--when", g.When+" ", func() (err error) { m.When, err = whenOf(now, g.When); return })
	if err == nil && len(m.Sizes) == 0 {
		err = errors.New("no size is given")
	}
	m.Remark = g.Remark
	return m, err
}

// InWords is an error of the rooms below in the words and units of a job.
func InWords(job *process.Job, err error) error {
	if f, ok := fact.Of(err); ok {
		return errors.New(words.In(job.Units).Say(f))
	}
	return err
}

// stationOf finds the station of an entry: the only bore left where none is
// named.
func stationOf(job *process.Job, p *plan.Plan, name string) (int, error) {
	var names []string
	for _, b := range job.Bores {
		st := job.Stations[b.Station].Name
		if names = append(names, fmt.Sprintf("%q", st)); st == name || name == "" && len(job.Bores) == 1 {
			return b.Station, nil
		}
	}
	if name == "" && len(p.Bores) == 1 {
		return p.Bores[0].Bore.Station, nil
	}
	if name == "" {
		return 0, fmt.Errorf("which bore? Give --station: %s", strings.Join(names, ", "))
	}
	return 0, fmt.Errorf("--station: %q is not bored by this job; it bores %s", name, strings.Join(names, ", "))
}
