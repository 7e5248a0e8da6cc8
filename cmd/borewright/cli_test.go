package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"borewright/cmd/jobfile"
)

// The program runs as a process of its own in each story.
func TestMain(m *testing.M) {
	testscript.Main(keeping{m}, map[string]func(){
		"add-forever": addForever,
		"borewright":  func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// keeping has each job planned once for all tests; in a full run TestGolden and TestSameBytes
// have it planned anew.
type keeping struct{ *testing.M }

func (m keeping) Run() int {
	jobfile.MakeAfter, jobfile.CorrectionsOf = keptPlans(), keptCorrections()
	return m.M.Run()
}

// TestCommands tells what a user does, a story a file.
func TestCommands(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join(root, "testdata", "cli"),
		UpdateScripts: os.Getenv("UPDATE_GOLDEN") != "",
		Setup: func(e *testscript.Env) error {
			e.Setenv("JOBS", filepath.Join(root, "testdata", "jobs"))
			return nil
		},
	})
}
