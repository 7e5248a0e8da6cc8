//go:build ignore

// Told reads what go test -json says and prints it for a person: failures whole, one line
// a package, and at the end the tests that took more than 5 s, the longest first. The exit
// code is 1 where anything failed.
//
//	go test -json ./... | go run .ci/told.go
package main

import (
	"bufio"
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
)

const long = 5 // s

// event is one line of go test -json (go doc test2json). A build that fails names no package.
type event struct {
	Action, Package, Test, Output, ImportPath string
	Elapsed                                   float64 // s
}

func main() {
	type name struct{ pkg, test string }
	type took struct {
		name
		s float64
	}
	said := map[name][]string{}
	var slow []took
	failed, packages := false, 0
	in := bufio.NewScanner(os.Stdin)
	in.Buffer(nil, 1<<26)
	for in.Scan() {
		var e event
		if err := json.Unmarshal(in.Bytes(), &e); err != nil { // of the go command itself
			fmt.Println(in.Text())
			continue
		}
		at := name{e.Package, e.Test}
		switch e.Action {
		case "output":
			said[at] = append(said[at], e.Output)
		case "build-output":
			fmt.Print(e.Output)
		case "build-fail":
			failed = true
		case "pass", "skip", "fail":
			top := !strings.Contains(e.Test, "/")
			if e.Action == "fail" {
				failed = true
				fmt.Print(strings.Join(said[at], ""))
			} else if e.Test == "" { // "ok", the package and its time; what comes before it is of no test
				packages++
				fmt.Print(said[at][max(0, len(said[at])-1):][0])
			}
			if e.Test != "" && top && e.Elapsed > long {
				slow = append(slow, took{at, e.Elapsed})
			}
			delete(said, at)
		}
	}
	if err := in.Err(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	// A test binary that dies leaves tests that came to no end.
	for _, lines := range said {
		if text := strings.Join(lines, ""); strings.Contains(text, "panic:") || strings.Contains(text, "fatal error:") {
			failed = true
			fmt.Print(text)
		}
	}
	slices.SortFunc(slow, func(a, b took) int { return cmp.Compare(b.s, a.s) })
	fmt.Printf("\ntests of more than %d s:\n", long)
	for _, t := range slow {
		fmt.Printf("%6.1f s  %s %s\n", t.s, t.pkg, t.test)
	}
	if failed || packages == 0 {
		fmt.Println("FAILED")
		os.Exit(1)
	}
}
