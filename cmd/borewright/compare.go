package main

import (
	"bytes"

	"github.com/spf13/cobra"

	"borewright/post"
	"borewright/process/plan"
	"borewright/sheets"
)

func compareCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "Say what changed between two revisions of a job",
		Long: `compare plans both job files and shows what changed: first in the terms of the
job, what can spoil the bore before what cannot, then the programs and the sheet
line by line. The exit code is 1 when they differ.`,
		Args: func(cmd *cobra.Command, args []string) error { return need(cmd, args, "OLD", "NEW") },
		RunE: func(cmd *cobra.Command, args []string) error {
			var revs [2]sheets.Revision
			for i, path := range args {
				r, err := revision(path)
				if err != nil {
					return err
				}
				revs[i] = r
			}
			differ, err := sheets.WriteCompare(cmd.OutOrStdout(), revs[0], revs[1])
			if err != nil {
				return err
			}
			if differ {
				return errNo
			}
			return nil
		},
	}
}

// revision plans a job file and writes its programs and sheet in memory.
func revision(path string) (sheets.Revision, error) {
	job, err := loadJob(path)
	if err != nil {
		return sheets.Revision{}, err
	}
	p := plan.Make(job)
	r := sheets.Revision{Name: path, Plan: p}
	for _, name := range programNames(p) {
		r.Programs = append(r.Programs, sheets.File{Name: name})
	}
	i := 0
	for b := range p.Bores {
		for v := range p.Bores[b].Visits {
			if len(r.Programs) == 0 {
				break
			}
			var buf bytes.Buffer
			if err := post.Write(&buf, p, b, v); err != nil {
				return r, err
			}
			r.Programs[i].Data = buf.Bytes()
			i++
		}
	}
	var text bytes.Buffer
	err = sheets.Build(p, sheets.WithPrograms(programNames(p)...)).WriteText(&text)
	r.Sheet = text.Bytes()
	return r, err
}
