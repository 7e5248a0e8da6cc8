package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/sheets/page"
)

func recordCommand() *cobra.Command {
	var dir string
	var as jobfile.Choice
	var html, pdf, asJSON bool
	cmd := &cobra.Command{
		Use:   "record JOB",
		Short: "Print the as-built record: found, planned, cut, in or out",
		Long: `record puts the plan of JOB beside what was measured on it (JOB.results.toml)
and who approved it (JOB.approved.toml). The exit code is 1 while a bore is not
finished, or when one is out of limits.`,
		Example: "  borewright record job.toml\n  borewright record job.toml --out out/WG-204-C-record",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.Check(); err != nil {
				return err
			}
			r, err := jobfile.ReadRecord(args[0])
			if err != nil {
				return err
			}
			s := r.Sheet()
			face := as.Text(s)
			switch {
			case asJSON:
				face = r.WriteJSON
			case html:
				face = s.WriteHTML
			case pdf:
				face = as.PDF(s, r.First)
			}
			if dir == "" {
				err = face(cmd.OutOrStdout())
			} else {
				err = recordFolder(cmd, dir, s, r.First, as)
			}
			if err != nil {
				return err
			}
			if !record.Accepted(r.Rows) {
				return errNo
			}
			return nil
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write record.txt, record.html and record.pdf to (default: print it)")
	cmd.Flags().BoolVar(&as.ASCII, "ascii", false, "text in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&asJSON, "json", false, "the record as JSON, SI units")
	cmd.Flags().BoolVar(&html, "html", false, "print one HTML file")
	cmd.Flags().BoolVar(&pdf, "pdf", false, "print a PDF, fonts inside")
	paperFlag(cmd, &as.Paper)
	cmd.MarkFlagsMutuallyExclusive("ascii", "html", "pdf", "json")
	cmd.MarkFlagsMutuallyExclusive("out", "html")
	cmd.MarkFlagsMutuallyExclusive("out", "pdf")
	cmd.MarkFlagsMutuallyExclusive("out", "json")
	return cmd
}

// recordFolder writes the record in its three faces.
func recordFolder(cmd *cobra.Command, dir string, s *page.Sheet, p *plan.Plan, as jobfile.Choice) error {
	files, err := as.Faces(jobfile.PaperFile{Name: "record.txt", Write: as.Text(s)}, jobfile.PaperFile{Name: "record.html", Write: s.WriteHTML}, jobfile.PaperFile{Name: "record.pdf", Write: as.PDF(s, p)})
	if err != nil {
		return err
	}
	if err := store.Put(dir, files); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintf(cmd.OutOrStdout(), "Written: %s\n", shown(filepath.Join(dir, f.Name)))
	}
	return nil
}
