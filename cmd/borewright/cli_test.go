package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"borewright/cmd/jobfile/kept"
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
	kept.Plans()
	return m.M.Run()
}

// TestCommands tells what a user does, a story a file. Those of many commands begin with
// [quick] skip: a short run leaves them out, unless it rewrites them.
func TestCommands(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	updates := os.Getenv("UPDATE_GOLDEN") != ""
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join(root, "testdata", "cli"),
		UpdateScripts: updates,
		Condition: func(c string) (bool, error) {
			if c != "quick" {
				return false, fmt.Errorf("%q is no condition", c)
			}
			return testing.Short() && !updates, nil
		},
		Setup: func(e *testscript.Env) error {
			e.Setenv("JOBS", filepath.Join(root, "testdata", "jobs"))
			return nil
		},
	})
}
