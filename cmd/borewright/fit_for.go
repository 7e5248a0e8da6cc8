package main

import (
	"github.com/spf13/cobra"

	"borewright/process/files"
	"borewright/sheets/limits"
)

// askFlags puts the flags of fit --for on the command.
func askFlags(cmd *cobra.Command, a *limits.Ask) {
	f := cmd.Flags()
	f.StringVar(&a.Use, "for", "", "advise what to choose: housing, shaft (the seats of a rolling bearing) or running")
	f.StringVar(&a.Turns, "turns", "", "ring that turns against the load: inner (the shaft turns), outer (the housing, or the load with the shaft), either")
	f.StringVar(&a.Load, "load", "", "light (to 0.06 of the bearing's dynamic rating), normal (to 0.12), heavy or shock")
	f.StringVar(&a.Bearing, "bearing", "", "of a shaft: ball, cylindrical or spherical (rollers)")
	f.BoolVar(&a.Split, "split", false, "the housing is split along its axis")
	f.BoolVar(&a.Slides, "slides", false, "this ring must move along its seat")
	f.BoolVar(&a.Thin, "thin", false, "the housing is thin: less than 1.5 times the bore outside")
	f.BoolVar(&a.Soft, "soft", false, "the housing is of light alloy, the shaft hollow or not of steel")
	f.Float64Var(&a.Speed, "speed", 0, "of a running shaft, rev/min")
	f.StringVar(&a.Lube, "lube", "", "of a running shaft: oil, grease or liner (a lining that needs none)")
	f.StringVar(&a.Metal, "metal", "", "metal of the housing, or of a shaft's seat (borewright list materials)")
	f.StringVar(&a.Housing, "housing-temp", "", "temperature of the housing at work, as in \"40 °C\"")
	f.StringVar(&a.Shaft, "shaft-temp", "", "temperature of the shaft at work")
	f.StringVar(&a.Ring, "ring-temp", "", "temperature of the ring at work")
}

// given adds which of them stand on the command line, and the metals that are built in.
func given(cmd *cobra.Command, a *limits.Ask) {
	for _, name := range limits.AskFlags() {
		if cmd.Flags().Changed(name) {
			a.Given = append(a.Given, name)
		}
	}
	a.Alpha = func(id string) (float64, bool) {
		if m := files.MaterialByID(id); m != nil {
			return m.Alpha, true
		}
		return 0, false
	}
}
