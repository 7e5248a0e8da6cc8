package limits

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/fit/seats"
	"borewright/process/fit/standard"
	"borewright/process/qty"
	"borewright/process/source"
)

// Ask is what a size is to be chosen for, as the flags of fit --for have it.
type Ask struct {
	Use, Turns, Load, Bearing, Lube, Metal string
	Housing, Shaft, Ring                   string // temperatures at work
	Split, Slides, Thin, Soft              bool
	Speed                                  float64
	Given                                  []string                             // which flags are there
	Alpha                                  func(id string) (a float64, ok bool) // expansion of a metal that is built in, 1/K
}

// AskFlags are the flags that go with --for.
func AskFlags() []string {
	return []string{"turns", "load", "bearing", "split", "slides", "thin", "soft", "speed", "lube", "metal", "housing-temp", "shaft-temp", "ring-temp"}
}

// takes are the flags that go with each use.
var takes = map[string][]string{
	"housing": {"turns", "load", "split", "slides", "thin", "soft", "metal", "housing-temp", "ring-temp"},
	"shaft":   {"turns", "load", "bearing", "slides", "soft", "metal", "shaft-temp", "ring-temp"},
	"running": {"speed", "lube", "metal", "housing-temp", "shaft-temp"},
}

// Answer advises on a size: text for a person, or JSON. What is wrong is said in the flags' names.
func (a *Ask) Answer(size string, asJSON bool) ([]byte, error) {
	use, err := oneOf("for", a.Use, "housing", "housing", "shaft", "running")
	if err != nil {
		return nil, err
	}
	a.Use = []string{"housing", "shaft", "running"}[use]
	for _, name := range a.Given {
		if !slices.Contains(takes[a.Use], name) {
			return nil, fmt.Errorf("fit: --%s does not go with --for %s, which takes --%s", name, a.Use, strings.Join(takes[a.Use], ", --"))
		}
	}
	d, u, err := standard.ParseSize(size)
	if err != nil {
		return nil, fmt.Errorf("fit: %w", err)
	}
	if a.Use == "running" {
		return a.running(d, u, asJSON)
	}
	s := seats.Seat{Size: d, Part: seats.Part(use), Split: a.Split, Slides: a.Slides, Thin: a.Thin, Soft: a.Soft, AtWork: [2]float64{20, 20}}
	turns, err := oneOf("turns", a.Turns, "", "inner", "outer", "either")
	if err != nil {
		return nil, err
	}
	load, err := oneOf("load", a.Load, "", "light", "normal", "heavy", "shock")
	if err != nil {
		return nil, err
	}
	s.Turns, s.Load = seats.Turns(turns), seats.Load(load)
	at, metal := a.Housing, "gray-iron-200hb"
	if s.Part == seats.Shaft {
		rolls, err := oneOf("bearing", a.Bearing, "ball", "ball", "cylindrical", "spherical")
		if err != nil {
			return nil, err
		}
		s.Rolls, at, metal = seats.Rolling(rolls), a.Shaft, "steel-1045"
	}
	if s.Alpha, err = a.alpha(metal); err != nil {
		return nil, err
	}
	if err := temperatures(u, &s.AtWork, at, a.Ring); err != nil {
		return nil, err
	}
	advice, err := seats.Advise(s)
	if err != nil {
		return nil, fmt.Errorf("fit: %w", err)
	}
	if asJSON {
		return seatJSON(s, advice)
	}
	return []byte(seatReport(u, s, advice)), nil
}

func (a *Ask) running(d qty.Diameter, u qty.Unit, asJSON bool) ([]byte, error) {
	lube, err := oneOf("lube", a.Lube, "oil", "oil", "grease", "liner")
	if err != nil {
		return nil, err
	}
	in := seats.Running{Size: d, Speed: a.Speed, Lube: seats.Lube(lube), AtWork: [2]float64{20, 20}}
	switch {
	case !(a.Speed >= 0 && a.Speed <= 100_000):
		return nil, fmt.Errorf("fit: --speed is %g; write the speed of the shaft in rev/min, 0 to 100000", a.Speed)
	case in.Lube == seats.Oil && !slices.Contains(a.Given, "speed"):
		return nil, fmt.Errorf("fit: clearance in oil hangs on the speed: give --speed as well, in rev/min, as in --speed 300")
	}
	if in.Alpha[0], err = a.alpha("gray-iron-200hb"); err != nil {
		return nil, err
	}
	in.Alpha[1], _ = a.Alpha("steel-1045")
	if err := temperatures(u, &in.AtWork, a.Housing, a.Shaft); err != nil {
		return nil, err
	}
	r := seats.Run(in)
	if asJSON {
		return runJSON(in, r)
	}
	return []byte(runReport(u, in, r)), nil
}

// alpha is the thermal expansion of the metal that is named, or of the usual one.
func (a *Ask) alpha(usual string) (float64, error) {
	name := usual
	if a.Metal != "" {
		name = a.Metal
	}
	alpha, ok := a.Alpha(name)
	if !ok {
		return 0, fmt.Errorf("fit: --metal is %q; \"borewright list materials\" names what is built in", name)
	}
	return alpha, nil
}

// temperatures reads what is given of two.
func temperatures(u qty.Unit, into *[2]float64, texts ...string) error {
	for i, t := range texts {
		if t == "" {
			continue
		}
		v, err := qty.ParseTemperature(u, t)
		if err != nil {
			return fmt.Errorf("fit: %w", err)
		}
		if into[i] = v.Celsius(); into[i] < -100 || into[i] > 400 {
			return fmt.Errorf("fit: %s is outside -100 to 400 °C; give the temperature at work", t)
		}
	}
	return nil
}

// oneOf is which of the words a flag has; the usual one where it is not given, and none
// where there is no usual one.
func oneOf(flag, value, usual string, words ...string) (int, error) {
	if value == "" {
		value = usual
	}
	if i := slices.Index(words, value); i >= 0 {
		return i, nil
	}
	if value == "" {
		return 0, fmt.Errorf("fit: say --%s as well: %s", flag, strings.Join(words, ", "))
	}
	near := ""
	if n := source.Nearest(value, words); n != "" {
		near = fmt.Sprintf("did you mean %s? ", n)
	}
	return 0, fmt.Errorf("fit: --%s is %q; %sIt takes %s", flag, value, near, strings.Join(words, ", "))
}
