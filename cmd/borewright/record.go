package main

import (
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/sheets/document"
	"borewright/sheets/page"
	"borewright/sheets/programs"
	"borewright/sheets/report"
)

func recordCommand() *cobra.Command {
	var dir string
	var as sheetChoice
	var html, pdf, asJSON bool
	cmd := &cobra.Command{
		Use:   "record JOB",
		Short: "Print the as-built record of a job: found, planned, cut, measured, in or out",
		Long: `record puts the plan of JOB beside what was measured on it (JOB.results.toml).
The exit code is 1 while a bore is not finished, or when one is out of limits.`,
		Example: "  borewright record job.toml\n  borewright record job.toml --out out/WG-204-C-record",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.check(); err != nil {
				return err
			}
			job, err := loadJob(args[0])
			if err != nil {
				return err
			}
			results, err := loadResults(args[0], job)
			if err != nil {
				return err
			}
			now := makeAfter(job, results)
			first := now
			if len(results.Entries) > 0 {
				first = plan.Make(job)
			}
			cut := programs.AsCut(job, results)
			rows, entries := record.Of(first, now), record.Entries(first, results)
			s := report.Record(first, now, cut, entries)
			face := as.text(s)
			switch {
			case asJSON:
				face = func(w io.Writer) error { return output{w}.bytes(document.WriteRecord(first, cut, rows, entries)) }
			case html:
				face = s.WriteHTML
			case pdf:
				face = as.pdf(s, first)
			}
			if dir == "" {
				err = face(cmd.OutOrStdout())
			} else {
				err = recordFolder(cmd, dir, s, first, as)
			}
			if err != nil {
				return err
			}
			if !record.Accepted(rows) {
				return errNo
			}
			return nil
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write record.txt, record.html and record.pdf to (default: print it)")
	cmd.Flags().BoolVar(&as.ascii, "ascii", false, "text in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&asJSON, "json", false, "the record as JSON, SI units")
	cmd.Flags().BoolVar(&html, "html", false, "print one HTML file")
	cmd.Flags().BoolVar(&pdf, "pdf", false, "print a PDF, fonts inside")
	as.paperFlag(cmd)
	cmd.MarkFlagsMutuallyExclusive("ascii", "html", "pdf", "json")
	cmd.MarkFlagsMutuallyExclusive("out", "html")
	cmd.MarkFlagsMutuallyExclusive("out", "pdf")
	cmd.MarkFlagsMutuallyExclusive("out", "json")
	return cmd
}

// recordFolder writes the record in its three faces.
func recordFolder(cmd *cobra.Command, dir string, s *page.Sheet, p *plan.Plan, as sheetChoice) error {
	files, err := as.faces(paperFile{"record.txt", as.text(s)}, paperFile{"record.html", s.WriteHTML}, paperFile{"record.pdf", as.pdf(s, p)})
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
