package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"borewright/process/files"
	"borewright/process/fit/seats"
	"borewright/process/fit/standard"
	"borewright/process/qty"
	"borewright/process/source"
	"borewright/sheets/limits"
)

// advised are the flags of fit --for.
type advised struct {
	use, turns, load, bearing, lube, metal string
	housing, shaft, ring                   string // temperatures at work
	split, slides, thin, soft              bool
	speed                                  float64
}

// flags puts them on the command.
func (a *advised) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&a.use, "for", "", "advise what to choose: housing, shaft (the seats of a rolling bearing) or running")
	f.StringVar(&a.turns, "turns", "", "ring that turns against the load: inner (the shaft turns), outer (the housing, or the load with the shaft), either")
	f.StringVar(&a.load, "load", "", "light (to 0.06 of the bearing's dynamic rating), normal (to 0.12), heavy or shock")
	f.StringVar(&a.bearing, "bearing", "", "of a shaft: ball, cylindrical or spherical (rollers)")
	f.BoolVar(&a.split, "split", false, "the housing is split along its axis")
	f.BoolVar(&a.slides, "slides", false, "this ring must move along its seat")
	f.BoolVar(&a.thin, "thin", false, "the housing is thin: less than 1.5 times the bore outside")
	f.BoolVar(&a.soft, "soft", false, "the housing is of light alloy, the shaft hollow or not of steel")
	f.Float64Var(&a.speed, "speed", 0, "of a running shaft, rev/min")
	f.StringVar(&a.lube, "lube", "", "of a running shaft: oil, grease or liner (a lining that needs none)")
	f.StringVar(&a.metal, "metal", "", "metal of the housing, or of a shaft's seat (borewright list materials)")
	f.StringVar(&a.housing, "housing-temp", "", "temperature of the housing at work, as in \"40 °C\"")
	f.StringVar(&a.shaft, "shaft-temp", "", "temperature of the shaft at work")
	f.StringVar(&a.ring, "ring-temp", "", "temperature of the ring at work")
}

// given are the flags of advice that stand on the command line.
func (a *advised) given(cmd *cobra.Command) []string {
	var out []string
	for _, name := range []string{"turns", "load", "bearing", "split", "slides", "thin", "soft", "speed", "lube", "metal", "housing-temp", "shaft-temp", "ring-temp"} {
		if cmd.Flags().Changed(name) {
			out = append(out, name)
		}
	}
	return out
}

// takes are the flags that go with each use.
var takes = map[string][]string{
	"housing": {"turns", "load", "split", "slides", "thin", "soft", "metal", "housing-temp", "ring-temp"},
	"shaft":   {"turns", "load", "bearing", "slides", "soft", "metal", "shaft-temp", "ring-temp"},
	"running": {"speed", "lube", "metal", "housing-temp", "shaft-temp"},
}

// answer advises.
func (a *advised) answer(cmd *cobra.Command, args []string, asJSON bool) error {
	use, err := oneOf("for", a.use, "housing", "housing", "shaft", "running")
	if err != nil {
		return err
	}
	a.use = []string{"housing", "shaft", "running"}[use]
	for _, name := range a.given(cmd) {
		if !slices.Contains(takes[a.use], name) {
			return fmt.Errorf("fit: --%s does not go with --for %s, which takes --%s", name, a.use, strings.Join(takes[a.use], ", --"))
		}
	}
	d, u, err := standard.ParseSize(strings.Join(args, " "))
	if err != nil {
		return fmt.Errorf("fit: %w", err)
	}
	if a.use == "running" {
		return a.running(cmd, d, u, asJSON)
	}
	s := seats.Seat{Size: d, Part: seats.Part(use), Split: a.split, Slides: a.slides, Thin: a.thin, Soft: a.soft, AtWork: [2]float64{20, 20}}
	turns, err := oneOf("turns", a.turns, "", "inner", "outer", "either")
	if err != nil {
		return err
	}
	load, err := oneOf("load", a.load, "", "light", "normal", "heavy", "shock")
	if err != nil {
		return err
	}
	s.Turns, s.Load = seats.Turns(turns), seats.Load(load)
	at, metal := a.housing, "gray-iron-200hb"
	if s.Part == seats.Shaft {
		rolls, err := oneOf("bearing", a.bearing, "ball", "ball", "cylindrical", "spherical")
		if err != nil {
			return err
		}
		s.Rolls, at, metal = seats.Rolling(rolls), a.shaft, "steel-1045"
	}
	if s.Alpha, err = a.alpha(metal); err != nil {
		return err
	}
	if err := temperatures(u, &s.AtWork, at, a.ring); err != nil {
		return err
	}
	advice, err := seats.Advise(s)
	if err != nil {
		return fmt.Errorf("fit: %w", err)
	}
	if asJSON {
		return output{cmd.OutOrStdout()}.bytes(limits.SeatJSON(s, advice))
	}
	_, err = io.WriteString(cmd.OutOrStdout(), limits.SeatReport(u, s, advice))
	return err
}

func (a *advised) running(cmd *cobra.Command, d qty.Diameter, u qty.Unit, asJSON bool) error {
	lube, err := oneOf("lube", a.lube, "oil", "oil", "grease", "liner")
	if err != nil {
		return err
	}
	in := seats.Running{Size: d, Speed: a.speed, Lube: seats.Lube(lube), AtWork: [2]float64{20, 20}}
	switch {
	case !(a.speed >= 0 && a.speed <= 100_000):
		return fmt.Errorf("fit: --speed is %g; write the speed of the shaft in rev/min, 0 to 100000", a.speed)
	case in.Lube == seats.Oil && !cmd.Flags().Changed("speed"):
		return fmt.Errorf("fit: clearance in oil hangs on the speed: give --speed as well, in rev/min, as in --speed 300")
	}
	if in.Alpha[0], err = a.alpha("gray-iron-200hb"); err != nil {
		return err
	}
	in.Alpha[1] = files.MaterialByID("steel-1045").Alpha
	if err := temperatures(u, &in.AtWork, a.housing, a.shaft); err != nil {
		return err
	}
	r := seats.Run(in)
	if asJSON {
		return output{cmd.OutOrStdout()}.bytes(limits.RunJSON(in, r))
	}
	_, err = io.WriteString(cmd.OutOrStdout(), limits.RunReport(u, in, r))
	return err
}

// alpha is the thermal expansion of the metal that is named, or of the usual one.
func (a *advised) alpha(usual string) (float64, error) {
	name := usual
	if a.metal != "" {
		name = a.metal
	}
	m := files.MaterialByID(name)
	if m == nil {
		return 0, fmt.Errorf("fit: --metal is %q; \"borewright list materials\" names what is built in", name)
	}
	return m.Alpha, nil
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
