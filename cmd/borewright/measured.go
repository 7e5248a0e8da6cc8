package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/programs"
	"borewright/sheets/words"
)

// entryFlags is an entry as it is given on the command line.
type entryFlags struct {
	station, setting, wayOut, land, ra, remark, by, when string
	pass                                                 int
	sizes, marked, bare                                  []string
	sure, ask, show, asJSON                              bool
}

func measuredCommand() *cobra.Command {
	var f entryFlags
	cmd := &cobra.Command{
		Use:   "measured JOB",
		Short: "Enter what the gauge said after a pass, and plan the rest from it",
		Long: `measured adds an entry to the results file beside the job (JOB.results.toml) and
shows the plan for the rest: the spring that was seen corrects the model, and
the passes go on from the size that was found. plan, sheet, post, prove and make
go by the results file from then on; make writes to a folder of its own, so that
the sheet and the programs that were worked to stay as they are.

At a terminal it asks for what is not given. What looks like a slip is asked
about, or refused; --sure enters it without a question.

A SIZE is DIAMETER, DEPTH@CLOCK=DIAMETER or DEPTH=DIAMETER. DEPTH is near, middle
or far (of the bore), or a depth from the face; CLOCK is 12, 1:30, 3 and so on.
Bare figures are in the job's units; a figure may carry its own, as 85.59mm.`,
		Example: `  borewright measured job.toml
  borewright measured job.toml --pass 4 --size near@12=3.3697 --size far@3=3.3699
  borewright measured job.toml --pass 1 --size 3.166 --marked 12,6,9 --bare 3
  borewright measured job.toml --show`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return enterMeasured(cmd, args[0], f) },
	}
	fl := cmd.Flags()
	fl.StringVar(&f.station, "station", "", "the bore, by its station's name; needed where more than one is left")
	fl.IntVar(&f.pass, "pass", 0, "the pass that was cut last (default the next one with a hold point)")
	fl.StringArrayVar(&f.sizes, "size", nil, "a reading of the bore gauge; give it once for each")
	fl.StringVar(&f.setting, "setting", "", "what the cutter was set to, if not what the sheet says")
	fl.StringVar(&f.wayOut, "way-out", "", "how the cutter came out, if not as the sheet says: draw, shift or feed")
	fl.StringVar(&f.land, "land", "", "how wide the flank was seen to be worn after the pass; the rest is planned with it")
	fl.StringSliceVar(&f.marked, "marked", nil, "witness cut: where round the clock the cutter marked, as 12,6,9")
	fl.StringSliceVar(&f.bare, "bare", nil, "witness cut: where it did not")
	fl.StringVar(&f.ra, "ra", "", "roughness Ra, if it was measured")
	fl.StringVar(&f.remark, "remark", "", "what else was seen")
	fl.StringVar(&f.by, "by", "", "who measured")
	fl.StringVar(&f.when, "when", "", "when")
	fl.BoolVar(&f.sure, "sure", false, "enter it although it looks like a slip")
	fl.BoolVar(&f.ask, "ask", false, "ask for what is not given, also when not at a terminal")
	fl.BoolVar(&f.show, "show", false, "enter nothing: show what was measured and what is left")
	fl.BoolVar(&f.asJSON, "json", false, "the plan for the rest as JSON, SI units")
	return cmd
}

func enterMeasured(cmd *cobra.Command, path string, f entryFlags) error {
	job, err := loadJob(path)
	if err != nil {
		return err
	}
	p, err := planNow(job, path)
	if err != nil {
		return err
	}
	if f.show {
		return sayRest(cmd, path, p, f.asJSON)
	}
	if !p.Feasible && p.Findings == nil {
		return fmt.Errorf("measured: the job has no feasible plan, so nothing was to be cut; see \"borewright plan %s\"", path)
	}
	var q *questions
	if f.ask || len(f.sizes) == 0 && atTerminal(cmd) {
		q = newQuestions(cmd)
	}
	if q == nil && len(f.sizes) == 0 {
		return fmt.Errorf("measured: what did the gauge say? Give --size, as --size near@12=SIZE, or --ask to be asked, or --show to see what is left")
	}
	m, err := entryOf(job, p, &f, q)
	if err != nil {
		return fmt.Errorf("measured: %w", err)
	}
	if err := slipsPassed(cmd, job.Units, record.Slips(p, m), f.sure, q); err != nil {
		return err
	}
	seen := entriesOf(p)
	err = addResult(path, job, &m, func(now *process.Results) error {
		by := programs.CutBy(job, now.Entries, m)
		m.Program, m.ProgramSum = by.Name, by.Sum
		if len(now.Entries) == seen {
			return nil
		}
		// Another entry came in between: is this one still what it was?
		again := plan.MakeAfter(job, now)
		if m, err = record.Fill(again, m); err != nil {
			return fmt.Errorf("measured: somebody entered results meanwhile: %w", inWords(job.Units, err))
		}
		return slipsPassed(cmd, job.Units, record.Slips(again, m), f.sure, nil)
	})
	if err != nil {
		return err
	}
	if p, err = planNow(job, path); err != nil {
		return err
	}
	if !f.asJSON {
		fmt.Fprintf(cmd.OutOrStdout(), "Entered in %s.\n\n", resultsPath(path))
	}
	return sayRest(cmd, path, p, f.asJSON)
}

func entriesOf(p *plan.Plan) int {
	if p.Findings == nil {
		return 0
	}
	return p.Findings.Entries
}

// slipsPassed prints what looks like a slip and asks, refuses, or lets it
// pass.
func slipsPassed(cmd *cobra.Command, u qty.Unit, slips []record.Slip, sure bool, q *questions) error {
	if len(slips) == 0 {
		return nil
	}
	refused := false
	for _, s := range slips {
		fmt.Fprintf(cmd.ErrOrStderr(), "measured: %s\n", words.In(u).Say(s.Fact()))
		refused = refused || s.Refuse
	}
	switch {
	case refused:
		return errors.New("nothing is entered")
	case sure:
		return nil
	case q != nil && q.yes("Enter it all the same?"):
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
			fmt.Fprintf(out, "\nborewright make %s writes the sheet%s for the rest.\n", path, programToo(p))
		} else if p.Feasible && p.Findings != nil {
			fmt.Fprintf(out, "\nborewright record %s writes the record.\n", path)
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

// entryOf puts an entry together from flags and answers.
func entryOf(job *process.Job, p *plan.Plan, f *entryFlags, q *questions) (process.Measured, error) {
	var m process.Measured
	if f.station == "" && len(p.Bores) > 1 && q != nil {
		var names []string
		for _, b := range p.Bores {
			names = append(names, b.Station.Name)
		}
		f.station = q.ask("Which bore ("+strings.Join(names, ", ")+")", names[0])
	}
	station, err := stationOf(job, p, f.station)
	if err != nil {
		return m, err
	}
	m.Station = station
	if _, next, ok := record.Next(p, job.Stations[station].Name); ok && f.pass == 0 {
		if f.pass = next.N; q != nil {
			if f.pass, err = q.number("After which pass", next.N); err != nil {
				return m, err
			}
		}
	}
	if f.pass == 0 {
		return m, fmt.Errorf("nothing is left to measure at %q; name the --pass to enter it again", job.Stations[station].Name)
	}
	m.Pass = f.pass
	if m, err = record.Fill(p, m); err != nil {
		return m, inWords(job.Units, err)
	}
	if q != nil {
		q.readings(job, m, f)
	}
	if f.setting != "" {
		if m.Setting, err = diameterOf(job.Units, f.setting); err != nil {
			return m, fmt.Errorf("--setting: %w", err)
		}
	}
	if f.wayOut != "" {
		if m.WayOut, err = process.OutByOf(f.wayOut); err != nil {
			return m, fmt.Errorf("--way-out: %w", err)
		}
	}
	if f.land != "" {
		if m.Land, err = lengthOf(job.Units, f.land); err == nil && m.Land > qty.Millimetre {
			err = fmt.Errorf("%q is wider than any worn land; up to %s", f.land, job.Units.Say(qty.Millimetre))
		}
		if err != nil {
			return m, fmt.Errorf("--land: %w", err)
		}
	}
	for _, s := range f.sizes {
		size, err := sizeOf(job, station, s)
		if err != nil {
			return m, fmt.Errorf("--size %s: %w", s, err)
		}
		m.Sizes = append(m.Sizes, size)
	}
	if m.Marked, err = clocksOf(f.marked); err != nil {
		return m, fmt.Errorf("--marked: %w", err)
	}
	if m.Bare, err = clocksOf(f.bare); err != nil {
		return m, fmt.Errorf("--bare: %w", err)
	}
	if f.ra != "" {
		if m.Ra, err = raOf(job.Units, f.ra); err != nil {
			return m, fmt.Errorf("--ra: %w", err)
		}
	}
	if len(m.Sizes) == 0 {
		return m, errors.New("no size is given")
	}
	m.Remark, m.By, m.When = f.remark, f.by, f.when
	return m, nil
}

// stationOf finds the station of an entry: the only bore left where none is
// named.
func stationOf(job *process.Job, p *plan.Plan, name string) (int, error) {
	var names []string
	for _, b := range job.Bores {
		st := job.Stations[b.Station].Name
		if names = append(names, fmt.Sprintf("%q", st)); st == name || name == "" && len(job.Bores) == 1 {
			return b.Station, nil
		}
	}
	if name == "" && len(p.Bores) == 1 {
		return p.Bores[0].Bore.Station, nil
	}
	if name == "" {
		return 0, fmt.Errorf("which bore? Give --station: %s", strings.Join(names, ", "))
	}
	return 0, fmt.Errorf("--station: %q is not bored by this job; it bores %s", name, strings.Join(names, ", "))
}

// atTerminal reports whether a person sits at the other end of the input.
func atTerminal(cmd *cobra.Command) bool {
	f, ok := cmd.InOrStdin().(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull) // a device of characters too, and nobody sits there
	return err != nil || !os.SameFile(info, null)
}

// readings asks for what the flags leave out.
func (q *questions) readings(job *process.Job, m process.Measured, f *entryFlags) {
	u := job.Units
	if f.setting == "" && m.Setting > 0 {
		f.setting = q.ask("Cutter was set to, "+u.String(), u.Format(m.Setting.Length()))
	}
	if len(f.sizes) == 0 {
		fmt.Fprintf(q.out, "Diameters in %s; an empty line where there is none.\n", u.Word())
		for _, at := range []string{"near", "middle", "far"} {
			place := map[string]string{"near": "near end", "middle": "middle", "far": "far end"}[at]
			for _, clock := range [][2]string{{"12", "12 - 6"}, {"3", "3 - 9"}} {
				if s := q.ask(fmt.Sprintf("  %s, %s o'clock", place, clock[1]), ""); s != "" {
					f.sizes = append(f.sizes, at+"@"+clock[0]+"="+s)
				}
			}
		}
		for {
			s := q.ask("  another, as 14.6@1:30=SIZE", "")
			if s == "" {
				break
			}
			f.sizes = append(f.sizes, s)
		}
	}
	if m.Kind == process.WitnessCut && len(f.marked)+len(f.bare) == 0 {
		f.marked = fieldsOf(q.ask("Where round the clock did the cutter mark, as 12, 6, 9", ""))
		f.bare = fieldsOf(q.ask("And where not", ""))
	}
	if f.ra == "" && m.Kind == process.FinishCut {
		f.ra = q.ask("Ra, "+u.Name(qty.KindRoughness)+", if it was measured", "")
	}
	if f.remark == "" {
		f.remark = q.ask("Remark", "")
	}
	if f.by == "" {
		f.by = q.ask("Measured by", "")
	}
}
