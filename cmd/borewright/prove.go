package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/sheets/proof"
)

func proveCommand() *cobra.Command {
	var as proofFace
	var visit int
	var station, part string
	cmd := &cobra.Command{
		Use:   "prove PROGRAM JOB",
		Short: "Replay a program: does it cut the plan of the job and no more?",
		Long: `prove replays an RS-274 program, ours or one that came back edited from the
floor, against the plan of JOB: what it cuts, what it leaves, how near the bar
comes to each wall. Each finding names the program's line. Without --station and
--visit the program is held against the visit it fits best; of a file that holds
the programs of all visits, each is held against its own, one report after the
other. --html draws the way of the tip to scale, from stop to stop, with the
findings at their place; of a file of several programs each has its own drawing.

Exit code 0: proven; 1: not proven; 2: the call, the job or the file is wrong.`,
		Example: "  borewright prove floor.nc job.toml\n  borewright prove floor.nc job.toml --station idler --visit 2 --json\n  borewright prove --html floor.nc job.toml > floor.html",
		Args:    func(cmd *cobra.Command, args []string) error { return need(cmd, args, "PROGRAM", "JOB") },
		RunE: func(cmd *cobra.Command, args []string) error {
			if strings.EqualFold(filepath.Ext(args[0]), ".toml") && !strings.EqualFold(filepath.Ext(args[1]), ".toml") {
				args[0], args[1] = args[1], args[0]
			}
			job, err := jobfile.Load(args[1])
			if err != nil {
				return err
			}
			program, err := jobfile.ReadProgram(args[0])
			if err != nil {
				return err
			}
			if err := store.Settled(args[0]); err != nil {
				return err
			}
			name := shown(args[0])
			if len(bytes.Trim(program, "%\r\n\t \x00\x1a")) == 0 {
				return fmt.Errorf("prove: %s holds no program: it is empty", name)
			}
			if job.Machine.Control == nil {
				return fmt.Errorf("%s: machine: %s is worked by hand and takes no program: there is no control to read %s for",
					job.Where("machine"), job.Machine.Name, name)
			}
			p, err := jobfile.PlanNow(job, args[1])
			if err != nil {
				return err
			}
			if !p.Feasible {
				fmt.Fprintf(cmd.ErrOrStderr(), "%s: not replayed: the job has no feasible plan to hold it against; see \"borewright plan %s\"\n", name, shown(args[1]))
				return errNo
			}
			if several, strange := verify.Several(program, p); several && station == "" && visit == 0 && part == "" {
				return proveAll(cmd, program, name, p, strange, as)
			}
			var b, v int
			if station == "" && visit == 0 && part == "" {
				var ok bool
				if b, v, ok = verify.Identify(program, p); !ok {
					if b, v, err = visitOf(p, station, visit, part); err != nil {
						return fmt.Errorf("prove: %s fits no visit of the job better than another: %w", name, err)
					}
				}
			} else if b, v, err = visitOf(p, station, visit, part); err != nil {
				return fmt.Errorf("prove: %w", err)
			}
			r := verify.Check(program, name, p, b, v)
			otherName(&r, name, p, b, v)
			r.Assumed = append(r.Assumed, torn(p)...)
			if err := as.write(cmd, r, name, program, p, b, v); err != nil {
				return err
			}
			return answer(r.Proven)
		},
	}
	cmd.Flags().BoolVar(&as.json, "json", false, "the report as JSON, SI units")
	cmd.Flags().BoolVar(&as.html, "html", false, "the report as one HTML file, with what the program does drawn against the bores")
	cmd.MarkFlagsMutuallyExclusive("json", "html")
	cmd.Flags().StringVar(&station, "station", "", "the bore, by its station's name")
	cmd.Flags().IntVar(&visit, "visit", 0, "the work on the bore, 1 or 2")
	cmd.Flags().StringVar(&part, "part", "", "of a work that is roughed apart: rough or finish")
	return cmd
}

// proofFace is how a report is wanted.
type proofFace struct{ json, html bool }

func (f proofFace) write(cmd *cobra.Command, r verify.Report, name string, program []byte, p *plan.Plan, b, v int) error {
	switch {
	case f.json:
		return proof.WriteJSON(cmd.OutOrStdout(), r, name, p, b, v)
	case f.html:
		return proof.Sheet(r, name, program, p, b, v).WriteHTML(cmd.OutOrStdout())
	}
	proof.WriteText(cmd.OutOrStdout(), r, name, p, b, v)
	return nil
}

// proveAll holds every program of a file of several against its visit, by its number, and
// finds visits that have none, and programs of no visit.
func proveAll(cmd *cobra.Command, program []byte, name string, p *plan.Plan, strange []int, as proofFace) error {
	var all []proof.Held
	proven := true
	for i, at := range p.Programs() {
		r := verify.Check(program, name, p, at[0], at[1])
		r.Assumed = append(r.Assumed, torn(p)...)
		if i == 0 && len(strange) > 0 {
			r.Proven = false
			r.Findings = append([]verify.Finding{{Kind: verify.KindName, What: fmt.Sprintf("%s: O%04d is the number of no visit", name, strange[0]), Want: "the programs of the plan, and no other"}}, r.Findings...)
		}
		if proven = proven && r.Proven; as.html {
			all = append(all, proof.Held{Report: r, Bore: at[0], Visit: at[1]})
			continue
		}
		if i > 0 && !as.json {
			fmt.Fprintln(cmd.OutOrStdout())
		}
		if err := as.write(cmd, r, name, program, p, at[0], at[1]); err != nil {
			return err
		}
	}
	if as.html {
		if err := proof.Sheets(all, name, program, p).WriteHTML(cmd.OutOrStdout()); err != nil {
			return err
		}
	}
	return answer(proven)
}

// otherName finds a program in a file that is named as that of another visit: whoever
// takes it by its name cuts the wrong one.
func otherName(r *verify.Report, path string, p *plan.Plan, bore, visit int) {
	bore, visit = p.Lead(bore, visit)
	for _, x := range p.Programs() {
		if x == [2]int{bore, visit} || p.Job.Machine.Control.OneFile || !strings.EqualFold(filepath.Base(path), post.FileName(p, x[0], x[1])) {
			continue
		}
		b := &p.Bores[x[0]]
		r.Proven = false
		r.Findings = append([]verify.Finding{{
			Kind: verify.KindName, What: fmt.Sprintf("%s: the file's name says %s, visit %d, and the program is %s, visit %d",
				path, b.Station.Name, b.Visits[x[1]].N, p.Bores[bore].Station.Name, p.Bores[bore].Visits[visit].N),
			Want: "the name " + post.FileName(p, bore, visit),
		}}, r.Findings...)
	}
}

// printProven writes one program to standard output once it is proven.
func printProven(cmd *cobra.Command, p *plan.Plan, b, v int) error {
	var buf bytes.Buffer
	if err := post.Write(&buf, p, b, v); err != nil {
		return err
	}
	name := post.FileName(p, b, v)
	if r := verify.Check(buf.Bytes(), name, p, b, v); !r.Proven {
		proof.WriteFindings(cmd.ErrOrStderr(), r, name)
		return errNo
	}
	_, err := cmd.OutOrStdout().Write(buf.Bytes())
	return err
}
