package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/sheets/page"
)

func newCommand() *cobra.Command {
	var units string
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented job file to start from",
		Long: `new writes a job file that plans as it stands, with a comment on every part of
it. FILE must not exist; "-" prints it instead.`,
		Example: "  borewright new job.toml\n  borewright new job.toml --units mm",
		Args:    func(cmd *cobra.Command, args []string) error { return need(cmd, args, "FILE") },
		RunE: func(cmd *cobra.Command, args []string) error {
			u, ok := map[string]qty.Unit{"in": qty.Inches, "mm": qty.Metric}[units]
			if !ok {
				return fmt.Errorf("new: --units is %q; use in or mm", units)
			}
			data := files.Template(u)
			if args[0] == "-" {
				_, err := cmd.OutOrStdout().Write(data)
				return err
			}
			if _, err := os.Lstat(args[0]); err == nil {
				return fmt.Errorf("new: %s is there already; name a new file, or move it away", args[0])
			} else if !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			if err := os.WriteFile(args[0], data, 0o644); err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "Written: %s. Change it to your job, then: borewright make %s\n", args[0], args[0])
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "in", "in or mm")
	return cmd
}

func explainCommand() *cobra.Command {
	var long bool
	cmd := &cobra.Command{
		Use:   "explain [KEY]",
		Short: "Say what a key of a job, machine or material file means",
		Long: `explain prints a key's meaning, unit, default, range and an example. Without KEY
it lists every key, a line each; --long prints all of each.`,
		Example: "  borewright explain\n  borewright explain bar.steps\n  borewright explain spring_finish",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("explain: one key at a time (found %d)", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 && !long {
				return listKeys(cmd.OutOrStdout())
			}
			entries := files.Keys()
			if len(args) == 1 {
				var err error
				if entries, err = files.Explain(args[0]); err != nil {
					return err
				}
			}
			for i, e := range entries {
				if i > 0 {
					fmt.Fprintln(cmd.OutOrStdout())
				}
				explainEntry(cmd.OutOrStdout(), e)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&long, "long", false, "every key with unit, default, range and example")
	return cmd
}

func explainEntry(w io.Writer, e keys.Entry) {
	fmt.Fprintf(w, "%s\n", e.Key)
	for _, line := range page.Fold(e.Text, 76) {
		fmt.Fprintf(w, "  %s\n", line)
	}
	for _, p := range [][2]string{{"type", e.Type}, {"unit", e.Unit}, {"default", e.Default}, {"range", e.Range}, {"example", e.Example}} {
		if p[1] != "" {
			for i, line := range page.Fold(p[1], 66) {
				label := p[0]
				if i > 0 {
					label = ""
				}
				fmt.Fprintf(w, "  %-8s  %s\n", label, line)
			}
		}
	}
}

func listKeys(w io.Writer) error {
	for _, e := range files.Keys() {
		what := e.Text
		if i := strings.IndexAny(what, ".;"); i > 0 {
			what = what[:i]
		}
		what = page.Fold(what, max(20, 78-max(26, len(e.Key)+1)))[0]
		fmt.Fprintf(w, "%-26s %s\n", e.Key, what)
	}
	return nil
}

func listCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:       "list machines|materials|cutters|bars",
		Short:     "Show what is built in",
		ValidArgs: []string{"machines", "materials", "cutters", "bars"},
		Args: func(cmd *cobra.Command, args []string) error {
			return need(cmd, args, "one of machines, materials, cutters, bars")
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			var buf bytes.Buffer
			t := tabwriter.NewWriter(&buf, 0, 0, 2, ' ', 0)
			switch args[0] {
			case "machines":
				listMachines(t)
			case "materials":
				listMaterials(t)
			case "cutters":
				listCutters(t)
			case "bars":
				listBars(t)
			default:
				return fmt.Errorf("list: there are no %q; list machines, materials, cutters or bars", args[0])
			}
			t.Flush()
			_, err := cmd.OutOrStdout().Write(buf.Bytes())
			return err
		},
	}
	return cmd
}

func listMachines(t io.Writer) {
	fmt.Fprintln(t, "machine\tspindle mm\trev/min\tmm/rev\tkW\tcontrol\twhat it is")
	for _, m := range files.Machines() {
		control := "none"
		if m.Control != nil {
			control = "yes"
		}
		fmt.Fprintf(t, "%s\t%.0f\t%s\t%s\t%.0f\t%s\t%s\n", m.ID, m.Quill.MM(), rangeText(m.Speeds, 0), rangeText(m.Feeds, 3), float64(m.Power)/1000, control, m.Name)
	}
}

func rangeText(r process.Range, places int) string {
	if n := len(r.Steps); n > 0 {
		return fmt.Sprintf("%.*f-%.*f, %d steps", places, r.Steps[0], places, r.Steps[n-1], n)
	}
	return fmt.Sprintf("%.*f-%.*f", places, r.Least, places, r.Most)
}

func listMaterials(t io.Writer) {
	fmt.Fprintln(t, "material\tISO\tkc1.1 N/mm²\tmc\tE GPa\twhat it is")
	for _, m := range files.Materials() {
		fmt.Fprintf(t, "%s\t%s\t%.0f\t%.2f\t%.0f\t%s\n", m.ID, m.Group, m.Kc11, m.Mc, m.E/1000, m.Name)
	}
}

func listCutters(t io.Writer) {
	fmt.Fprintln(t, "cutter\tforce factor\tedge µm\trake °\twhat it is")
	for _, c := range files.CutterMaterials() {
		fmt.Fprintf(t, "%s\t%.2f\t%.0f\t%.0f\t%s\n", c.ID, c.Force, c.Edge.Microns(), c.Rake, c.Name)
	}
}

func listBars(t io.Writer) {
	fmt.Fprintln(t, "bar of\tE GPa\tkg/m³\toverhang rule\twhat it is")
	for _, b := range files.BarMaterials() {
		fmt.Fprintf(t, "%s\t%.0f\t%.0f\t%g diameters\t%s\n", b.ID, b.E/1000, b.Rho, b.Reach, b.Name)
	}
}
