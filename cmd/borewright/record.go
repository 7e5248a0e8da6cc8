package main

import (
	"bytes"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"borewright/process/plan"
	"borewright/sheets"
)

func recordCommand() *cobra.Command {
	var dir string
	var ascii bool
	cmd := &cobra.Command{
		Use:   "record JOB",
		Short: "Print the as-built record of a job: found, planned, cut, measured, in or out",
		Long: `record puts the plan of JOB beside what was measured on it (JOB.results.toml).
The exit code is 1 while a bore is not finished, or when one is out of limits.`,
		Example: "  borewright record job.toml\n  borewright record job.toml --out out/WG-204-C-record",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			job, err := loadJob(args[0])
			if err != nil {
				return err
			}
			now, err := planNow(job, args[0])
			if err != nil {
				return err
			}
			first := plan.Make(job)
			s := sheets.BuildRecord(first, now)
			var text bytes.Buffer
			write := s.WriteText
			if ascii {
				write = s.WriteASCII
			}
			if err := write(&text); err != nil {
				return err
			}
			if dir == "" {
				_, err = cmd.OutOrStdout().Write(text.Bytes())
			} else if err = writeAll(dir, []file{{"record.txt", text.Bytes()}}); err == nil {
				fmt.Fprintf(cmd.OutOrStdout(), "Written: %s\n", filepath.Join(dir, "record.txt"))
			}
			if err != nil {
				return err
			}
			if !sheets.Accepted(now.AsBuilt(first)) {
				return errNo
			}
			return nil
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write record.txt to (default: print it)")
	cmd.Flags().BoolVar(&ascii, "ascii", false, "plain ASCII, for an old printer")
	return cmd
}
