package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/BurntSushi/toml"

	"borewright/cmd/jobfile"
	"borewright/process/files"
	"borewright/process/qty"
)

// listShop shows the bars or the cutters of a list, or of the lists that a job names.
func listShop(w io.Writer, kind, path string) error {
	if kind != "bars" && kind != "cutters" {
		return fmt.Errorf("list: a shop lists bars and cutters; found %q", kind)
	}
	shop, err := shopOf(kind, path)
	if err != nil {
		return err
	}
	var buf bytes.Buffer
	t := tabwriter.NewWriter(&buf, 0, 0, 2, ' ', 0)
	if kind == "bars" {
		shopBars(t, shop)
	} else {
		shopCutters(t, shop)
	}
	t.Flush()
	for line := range bytes.Lines(buf.Bytes()) { // the last cell of a line may be empty
		if _, err := fmt.Fprintf(w, "%s\n", bytes.TrimRight(line, " \n")); err != nil {
			return err
		}
	}
	return nil
}

// shopOf reads a list, or the lists of a job.
func shopOf(kind, path string) (*files.Shop, error) {
	data, err := jobfile.Read(path)
	if err != nil {
		return nil, err
	}
	var top struct{ Machine, Station any }
	if _, err := toml.Decode(string(data), &top); err == nil && (top.Machine != nil || top.Station != nil) {
		job, err := files.Job(path, data, jobfile.Beside(path))
		if err != nil {
			return nil, err
		}
		shop := &files.Shop{Units: job.Units, Bars: job.Shop, Cutters: job.Drawer}
		if kind == "bars" && len(shop.Bars) == 0 || kind == "cutters" && len(shop.Cutters) == 0 {
			return nil, fmt.Errorf("list: %s names no list of %s (borewright explain %s)", path, kind, kind)
		}
		return shop, nil
	}
	if kind == "bars" {
		return files.Bars(path, data, jobfile.Beside(path))
	}
	return files.Cutters(path, data, jobfile.Beside(path))
}

func shopBars(t io.Writer, shop *files.Shop) {
	u := shop.Units
	fmt.Fprintf(t, "bar\tnose to tip\tsets from\tto %s\tsteps from the nose: diameter x length\tof\n", u)
	for _, b := range shop.Bars {
		var steps, metals []string
		for _, s := range b.Steps {
			step := u.Bare(qty.Plain(s.Diameter.Length())) + " x " + u.Bare(qty.Plain(s.Length))
			if s.Hole > 0 {
				step += " (hole " + u.Bare(qty.Plain(s.Hole.Length())) + ")"
			}
			steps = append(steps, step)
			if !slices.Contains(metals, s.Material.ID) {
				metals = append(metals, s.Material.ID)
			}
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", b.Name, u.Bare(qty.Plain(b.CutterAt)), u.Format(b.Least.Length()), u.Format(b.Most.Length()), strings.Join(steps, ", "), strings.Join(metals, ", "))
	}
}

func shopCutters(t io.Writer, shop *files.Shop) {
	u := shop.Units
	fmt.Fprintf(t, "cutter\tnose radius\tlead\trake\tsets from\tto %s\tgood for\tof\n", u)
	open := func(d qty.Diameter) string {
		if d == 0 {
			return "as the bar"
		}
		return u.Format(d.Length())
	}
	for _, k := range shop.Cutters {
		of := ""
		if k.Material != nil {
			of = k.Material.ID
		}
		fmt.Fprintf(t, "%s\t%s\t%g°\t%g°\t%s\t%s\t%s\t%s\n", k.Name, u.Bare(qty.Plain(k.NoseRadius)), k.Lead, k.Rake, open(k.Least), open(k.Most), k.For, of)
	}
}
