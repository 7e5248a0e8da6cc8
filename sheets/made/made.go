// Package made says which borewright made a paper, a file or a record, and of what
// modules it was built: from the data that the Go tools put into every binary.
package made

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"
)

// licences are those of the modules that the program is built of, by their SPDX names.
// TestLicences reads them from the modules themselves.
var licences = map[string]string{
	"codeberg.org/go-pdf/fpdf":             "MIT",
	"github.com/BurntSushi/toml":           "MIT",
	"github.com/go-fonts/dejavu":           "BSD-3-Clause",
	"github.com/pelletier/go-toml/v2":      "MIT",
	"github.com/rogpeppe/go-internal":      "BSD-3-Clause",
	"github.com/sergi/go-diff":             "MIT",
	"github.com/spf13/cobra":               "Apache-2.0",
	"github.com/spf13/pflag":               "BSD-3-Clause",
	"gonum.org/v1/gonum":                   "BSD-3-Clause",
	"rsc.io/qr":                            "BSD-3-Clause",
	"github.com/inconshreveable/mousetrap": "Apache-2.0", // on Windows alone
}

// by is what By says. Only main has it read from the build, so that what a test makes is
// the same bytes however the test was built.
var by = "borewright, built without a version number"

// ReadBuild takes the version from the data of the build, where it has one.
func ReadBuild() {
	if info, ok := debug.ReadBuildInfo(); ok {
		by = version(info)
	}
}

func version(info *debug.BuildInfo) string {
	if info.Main.Version == "" || info.Main.Version == "(devel)" {
		return by
	}
	return "borewright " + info.Main.Version
}

// By is the program with its version, as "borewright v0.3.1"; of a build without one
// "borewright, built without a version number".
func By() string { return by }

// Write prints version, commit, Go and the modules with their licences, a line each.
func Write(w io.Writer) error {
	info, _ := debug.ReadBuildInfo()
	_, err := io.WriteString(w, By()+"\n"+built(info))
	return err
}

// built is what a build says of itself, a line each; nil: nothing.
func built(info *debug.BuildInfo) string {
	if info == nil {
		return "The binary holds no data of its build.\n"
	}
	var b strings.Builder
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	if rev := set["vcs.revision"]; rev != "" {
		changed := ""
		if set["vcs.modified"] == "true" {
			changed = ", and changed since"
		}
		fmt.Fprintf(&b, "commit %s of %s%s\n", rev, set["vcs.time"], changed)
	} else {
		fmt.Fprintln(&b, "commit not known: it was built outside of its repository, or with -buildvcs=false")
	}
	fmt.Fprintf(&b, "%s, %s/%s\n", info.GoVersion, set["GOOS"], set["GOARCH"])
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		licence := licences[m.Path]
		if licence == "" {
			licence = "licence: see the module"
		}
		fmt.Fprintf(&b, "%s %s, %s\n", m.Path, m.Version, licence)
	}
	return b.String()
}
