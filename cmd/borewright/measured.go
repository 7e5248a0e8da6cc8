package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/entry"
	"borewright/sheets/programs"
	"borewright/sheets/talk"
	"borewright/sheets/words"
)

// entryFlags is an entry as it is given on the command line.
type entryFlags struct {
	entry.Given
	sure, ask, show, asJSON bool
	now                     func() time.Time // the clock
}

func measuredCommand() *cobra.Command {
	f := entryFlags{now: time.Now}
	cmd := &cobra.Command{
		Use:   "measured JOB",
		Short: "Enter what the gauge said after a pass, and plan the rest from it",
		Long: `measured adds an entry to the results file beside the job (JOB.results.toml) and
shows the plan for the rest: the spring that was seen corrects the model, and
the passes go on from the size that was found. plan, sheet, post, prove and make
go by the results file from then on; make writes to a folder of its own, so that
the sheet and the programs that were worked to stay as they are.

At a terminal it asks for what is not given, as many sizes as the sheet's form
has. Each answer is checked as it is given: ? explains, < goes back. What looks
like a slip is asked about, or refused; --sure enters it without a question. A
pass entered again takes the place of what was entered before; the record keeps
both.

A SIZE is DIAMETER, DEPTH@CLOCK=DIAMETER or DEPTH=DIAMETER. DEPTH is near,
middle or far (of the bore), or a depth from the face; CLOCK is 12, 1:30, 3 and
so on. Bare figures are in the job's units; a figure may carry its own, as
85.59mm.`,
		Example: `  borewright measured job.toml
  borewright measured job.toml --pass 4 --size near@12=3.3697 --size far@3=3.37
  borewright measured job.toml --pass 1 --size 3.166 --marked 12,6,9 --bare 3
  borewright measured job.toml --show`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return enterMeasured(cmd, args[0], f) },
	}
	fl := cmd.Flags()
	fl.StringVar(&f.Station, "station", "", "the bore, by its station's name; needed where more than one is left")
	fl.IntVar(&f.Pass, "pass", 0, "the pass that was cut last (default the next one with a hold point)")
	fl.StringArrayVar(&f.Sizes, "size", nil, "a reading of the bore gauge; give it once for each")
	fl.StringVar(&f.Setting, "setting", "", "what the cutter was set to, if not what the sheet says")
	fl.StringVar(&f.WayOut, "way-out", "", "how the cutter came out, if not as the sheet says: draw, shift or feed")
	fl.StringVar(&f.Land, "land", "", "how wide the flank was seen to be worn after the pass; the rest is planned with it")
	fl.StringSliceVar(&f.Marked, "marked", nil, "witness cut: where round the clock the cutter marked, as 12,6,9")
	fl.StringSliceVar(&f.Bare, "bare", nil, "witness cut: where it did not")
	fl.StringVar(&f.Ra, "ra", "", "roughness Ra, if it was measured")
	fl.StringVar(&f.Remark, "remark", "", "what else was seen")
	fl.StringVar(&f.By, "by", "", "who measured")
	fl.StringVar(&f.When, "when", "", "when, as \"2026-03-02 14:20\" or 14:20 (default the clock's time)")
	fl.StringVar(&f.Gauge, "gauge", "", "the bore gauge, by its mark")
	fl.StringVar(&f.Master, "master", "", "what the gauge was set to, by its mark")
	fl.StringVar(&f.WorkTemp, "work-temp", "", "temperature of the work where it was gauged, as 79, \"79 F\" or \"26 C\"")
	fl.StringVar(&f.GaugeTemp, "gauge-temp", "", "temperature of gauge and master; with both, sizes are worked out for 20 °C")
	fl.BoolVar(&f.sure, "sure", false, "enter it although it looks like a slip")
	fl.BoolVar(&f.ask, "ask", false, "ask for what is not given, also when not at a terminal")
	fl.BoolVar(&f.show, "show", false, "enter nothing: show what was measured and what is left")
	fl.BoolVar(&f.asJSON, "json", false, "the plan for the rest as JSON, SI units")
	return cmd
}

func enterMeasured(cmd *cobra.Command, path string, f entryFlags) error {
	job, err := jobfile.Load(path)
	if err != nil {
		return err
	}
	p, err := jobfile.PlanNow(job, path)
	if err != nil {
		return err
	}
	if f.show {
		return sayRest(cmd, path, p, f.asJSON)
	}
	if !p.Feasible && p.Findings == nil {
		return fmt.Errorf("measured: the job has no feasible plan, so nothing was to be cut; see \"borewright plan %s\"", path)
	}
	var q *entry.Talk
	if f.ask || len(f.Sizes) == 0 && atTerminal(cmd) {
		q = &entry.Talk{Person: talk.Person{In: bufio.NewReader(cmd.InOrStdin()), Out: cmd.ErrOrStderr()}, Now: f.now()}
		if err := q.Ask(job, p, &f.Given); err != nil {
			return fmt.Errorf("measured: %w; nothing is entered", err)
		}
	}
	if q == nil && len(f.Sizes) == 0 {
		return fmt.Errorf("measured: what did the gauge say? Give --size, as --size near@12=SIZE, or --ask to be asked, or --show to see what is left")
	}
	m, err := f.Entry(job, p, f.now())
	if err != nil {
		return fmt.Errorf("measured: %w", err)
	}
	if err := slipsPassed(cmd, job, record.Slips(p, m), f.sure, q); err != nil {
		return err
	}
	sayTorn(cmd, p)
	seen := entriesOf(p)
	err = jobfile.Add(path, job, &m, func(now *process.Results) error {
		by := programs.CutBy(job, now.Entries, m)
		m.Program, m.ProgramSum = by.Name, by.Sum
		if len(now.Entries) == seen {
			return nil
		}
		// Another entry came in between: is this one still what it was?
		again := plan.MakeAfter(job, now)
		if m, err = record.Fill(again, m); err != nil {
			return fmt.Errorf("measured: somebody entered results meanwhile: %w", entry.InWords(job, err))
		}
		return slipsPassed(cmd, job, record.Slips(again, m), f.sure, nil)
	})
	if err != nil {
		return err
	}
	if err = sayEntered(cmd, job, path, f.asJSON); err != nil && !errors.Is(err, errNo) {
		err = fmt.Errorf("measured: the entry is on the disk, in %s, and is not to be entered again; what follows from it was not said: %w", jobfile.ResultsPath(path), err)
	}
	return err
}

// sayEntered says that an entry is kept, and what is left to be cut.
func sayEntered(cmd *cobra.Command, job *process.Job, path string, asJSON bool) error {
	p, err := jobfile.PlanNow(job, path)
	if err != nil {
		return err
	}
	if !asJSON {
		if _, err := fmt.Fprintf(cmd.OutOrStdout(), "Entered in %s.\n\n", shown(jobfile.ResultsPath(path))); err != nil {
			return err
		}
	}
	return sayRest(cmd, path, p, asJSON)
}

func entriesOf(p *plan.Plan) int {
	if p.Findings == nil {
		return 0
	}
	return p.Findings.Entries
}

// slipsPassed prints what looks like a slip and asks, refuses, or lets it
// pass.
func slipsPassed(cmd *cobra.Command, job *process.Job, slips []record.Slip, sure bool, q *entry.Talk) error {
	if q != nil {
		slips = slices.DeleteFunc(slips, func(s record.Slip) bool { return !s.Refuse && q.Confirmed(job, s) })
	}
	if len(slips) == 0 {
		return nil
	}
	refused := false
	for _, s := range slips {
		fmt.Fprintf(cmd.ErrOrStderr(), "measured: %s\n", words.In(job.Units).Say(s.Fact()))
		refused = refused || s.Refuse
	}
	switch {
	case refused:
		return errors.New("nothing is entered")
	case sure:
		return nil
	case q != nil && q.Yes("Enter it all the same?"):
		return nil
	case q != nil:
		return errors.New("nothing is entered")
	}
	return errors.New("nothing is entered; if it is right as it stands, say so with --sure")
}

// sayRest prints what was measured and the plan for what is left.
func sayRest(cmd *cobra.Command, path string, p *plan.Plan, asJSON bool) error {
	out := output{cmd.OutOrStdout()}
	if asJSON {
		if err := out.bytes(document.Write(p)); err != nil {
			return err
		}
	} else {
		if err := sheets.WriteFindings(out, p); err != nil {
			return err
		}
		if err := sheets.WritePasses(out, p); err != nil {
			return err
		}
		if p.Feasible && len(p.Bores) > 0 && p.Findings != nil {
			fmt.Fprintf(out, "\nborewright make %s writes the sheet%s for the rest.\n", shown(path), programToo(p))
		} else if p.Feasible && p.Findings != nil {
			fmt.Fprintf(out, "\nborewright record %s writes the record.\n", shown(path))
		}
	}
	return answer(p.Feasible)
}

func programToo(p *plan.Plan) string {
	if p.Job.Machine.Control == nil {
		return ""
	}
	return " and the programs"
}

// atTerminal reports whether a person sits at the other end of the input.
func atTerminal(cmd *cobra.Command) bool {
	f, ok := cmd.InOrStdin().(*os.File)
	return ok && isTerminal(f)
}

// isTerminal reports whether a person sits at the other end of a file.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull) // a device of characters too, and nobody sits there
	return err != nil || !os.SameFile(info, null)
}
