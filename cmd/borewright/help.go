package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/store"
	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/plate"
	"borewright/process/qty"
	"borewright/sheets/document"
	"borewright/sheets/page"
)

func newCommand() *cobra.Command {
	var units, machine string
	var set []string
	var byAsking bool
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented job file, or a machine file, to start from",
		Long: `new writes a job file that plans as it stands, with a comment on every part of
it. FILE must not exist; "-" prints it instead.

--ask asks for the job, in the order in which one stands at the casting, holds
each answer as it is given, and ends with the file and its plan. "borewright
edit" asks for a job again.

--machine writes a machine file instead, from a built-in one ("borewright list
machines" names them), each --set with a figure of the name plate in place of
what stands there, or asked for with --ask; "borewright explain machine" has the
keys.`,
		Example: "  borewright new job.toml\n  borewright new job.toml --units mm\n  borewright new job.toml --ask\n  borewright new our-mill.toml --machine hbm-5in --set 'quill = 4.5'",
		Args:    func(cmd *cobra.Command, args []string) error { return need(cmd, args, "FILE") },
		RunE: func(cmd *cobra.Command, args []string) error {
			u, ok := map[string]qty.Unit{"in": qty.Inches, "mm": qty.Metric}[units]
			if !ok {
				return fmt.Errorf("new: --units is %q; use in or mm", units)
			}
			data, then := files.Template(u), "Change it to your job, then: borewright make "+shown(args[0])
			if machine != "" {
				var err error
				if data, err = plate.With(machine, set); err != nil {
					return fmt.Errorf("new: %w", err)
				}
				then = fmt.Sprintf("Check every figure against the mill; a job beside it names it as machine = %q", filepath.Base(args[0]))
			} else if len(set) > 0 {
				return errors.New("new: --set is for a machine file: give --machine as well")
			}
			if _, err := os.Lstat(args[0]); args[0] != "-" && err == nil {
				return fmt.Errorf("new: %s is there already; name a new file, or move it away", args[0])
			} else if args[0] != "-" && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			if byAsking {
				var err error
				if data, err = asked(cmd, args[0], machine, data, u); err != nil {
					return fmt.Errorf("new: %w; nothing is written", err)
				}
			}
			if args[0] == "-" {
				_, err := cmd.OutOrStdout().Write(data)
				return err
			}
			if err := store.New(args[0], data); err != nil {
				return err
			}
			if byAsking && machine == "" {
				return sayPlan(cmd, args[0])
			}
			fmt.Fprintf(cmd.OutOrStdout(), "Written: %s. %s\n", shown(args[0]), then)
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "in", "in or mm")
	cmd.Flags().BoolVar(&byAsking, "ask", false, "ask for the figures of the job, or of the mill")
	cmd.Flags().StringVar(&machine, "machine", "", "write a machine file from this built-in machine")
	cmd.Flags().StringArrayVar(&set, "set", nil, "a line of the machine file, KEY = VALUE; once for each")
	return cmd
}

func explainCommand() *cobra.Command {
	var long, schema bool
	cmd := &cobra.Command{
		Use:   "explain [KEY]",
		Short: "Say what a key of a job, machine or material file means",
		Long: `explain prints a key's meaning, unit, default, range and an example. Without KEY
it lists every key, a line each; --long prints all of each.

--schema prints the JSON Schema of a kind of file in place of that: job,
machine, material, cutter, bar, bars, results or plan (plan.json); job where
none is named. An editor that has it completes the keys of a file and marks what
is wrong.`,
		Example: "  borewright explain\n  borewright explain bar.steps\n  borewright explain spring_finish\n  borewright explain --schema job > job.schema.json",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("explain: one key at a time (found %d)", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if schema {
				return printSchema(cmd.OutOrStdout(), args)
			}
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
	cmd.Flags().BoolVar(&schema, "schema", false, "the JSON Schema of a kind of file")
	return cmd
}

// printSchema prints the JSON Schema of a kind of file, of a job where none is named.
func printSchema(w io.Writer, kind []string) error {
	name := append(kind, "job")[0]
	s := files.Schema(name)
	if name == "plan" {
		s = document.PlanSchema()
	}
	if s == nil {
		return fmt.Errorf("explain: --schema: there is no kind of file %q; there are %s, plan", name, strings.Join(files.Schemas(), ", "))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(s)
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
