package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"borewright/post/verify"
)

// sayReport prints what a replay found: the findings by line, or that there
// are none, and what was cut.
func sayReport(w io.Writer, r verify.Report, name string) {
	for _, f := range r.Findings {
		at := name
		if f.Line > 0 {
			at = fmt.Sprintf("%s:%d:%d", name, f.Line, max(f.Col, 1))
		}
		fmt.Fprintf(w, "%s: %s: %s", at, f.Kind, f.What)
		if f.Want != "" {
			fmt.Fprintf(w, "; %s", f.Want)
		}
		fmt.Fprintln(w)
	}
	if len(r.Cuts) > 0 {
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
		fmt.Fprintln(t, "line\tpass\tset to mm\tfrom mm\tto mm\tmm/rev\trev/min\tcm³ off\t")
		for _, c := range r.Cuts {
			fmt.Fprintf(t, "%d\t%d\t%.3f\t%.2f\t%.2f\t%.3f\t%.0f\t%.1f\t\n", c.Line, c.Pass, c.Setting.MM(), c.From.MM(), c.To.MM(), c.Feed.MM(), c.Speed, c.Removed/1000)
		}
		t.Flush()
	}
	if r.Proven {
		fmt.Fprintf(w, "%s: proven: %d cuts, %.0f min of motion\n", name, len(r.Cuts), r.Minutes)
	} else {
		fmt.Fprintf(w, "%s: NOT PROVEN: %d findings\n", name, len(r.Findings))
	}
}
