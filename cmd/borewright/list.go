package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"borewright/process"
	"borewright/process/files"
	"borewright/sheets/made"
)

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Say which borewright this is and what it is built of",
		Long: `version prints the version, the commit and the Go that this program was built
with, and the modules in it with their licences. plan.json and the record name
the version that made them.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return made.Write(cmd.OutOrStdout()) },
	}
}

// kinds are what is built in, by the word that list takes.
var kinds = []struct {
	name string
	list func(io.Writer)
}{{"machines", listMachines}, {"materials", listMaterials}, {"cutters", listCutters}, {"bars", listBars}}

func listCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "list [machines|materials|cutters|bars [NAME|FILE]]",
		Short: "Show what is built in, or the bars and cutters of a list",
		Long: `list shows what is built in, all of it or one kind, a line each. With NAME it
prints the file of that one: every figure, ladders and travels too, and where it
comes from. With FILE, a list of bars and cutters or a job that names one, it
shows what the shop has: bars by their steps from the nose outward, and what
each cutter can be set to.`,
		Example:   "  borewright list\n  borewright list machines\n  borewright list machines hbm-5in\n  borewright list bars shop-bars.toml",
		ValidArgs: []string{"machines", "materials", "cutters", "bars"},
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 2 {
				return fmt.Errorf("list: one kind and one name at a time (found %d words)", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 2 && strings.HasSuffix(args[1], ".toml") {
				return listShop(cmd.OutOrStdout(), args[0], args[1])
			}
			if len(args) == 2 {
				data, err := files.BuiltIn(args[0], args[1])
				if err != nil {
					return fmt.Errorf("list: %w", err)
				}
				_, err = cmd.OutOrStdout().Write(data)
				return err
			}
			var buf bytes.Buffer
			for _, k := range kinds {
				if len(args) == 1 && args[0] != k.name {
					continue
				}
				if buf.Len() > 0 {
					buf.WriteByte('\n')
				}
				t := tabwriter.NewWriter(&buf, 0, 0, 2, ' ', 0)
				k.list(t)
				t.Flush()
			}
			if buf.Len() == 0 {
				return fmt.Errorf("list: there are no %q; list machines, materials, cutters or bars", args[0])
			}
			_, err := cmd.OutOrStdout().Write(buf.Bytes())
			return err
		},
	}
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
