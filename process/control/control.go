// Package control checks what a control says of itself that looks at several of its keys: the
// files that it keeps programs in, and its stops.
package control

import (
	"regexp"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/source"
	"borewright/process/storage"
)

// fileParts are what a pattern of a file's name may have in braces.
var fileParts = []string{storage.NumberPart, storage.RevisionPart, storage.BorePart, storage.VisitPart, storage.ProgramPart}

var (
	bracedRE    = regexp.MustCompile(`\{[^{}]*\}`)
	fileNameRE  = regexp.MustCompile(`^[A-Za-z0-9_-]*$`)
	extensionRE = regexp.MustCompile(`^[A-Za-z0-9]{1,8}$`)
)

// Storage checks what a control says of the files that it keeps programs in.
func Storage(r *keys.Reader, k *process.Control) {
	const name, ending, one = "control.file_name", "control.file_extension", "control.one_file"
	if !extensionRE.MatchString(k.FileExtension) {
		r.Bad(ending, source.Quoted([]string{k.FileExtension})+" is no ending of a file", `give up to 8 letters and digits, without a point, or "none"`)
	}
	numbered := k.ProgramNumber > 0
	if k.OneFile && !numbered {
		r.Bad(one, "needs program_number: O words tell the programs of a file apart", "state program_number, or one file for each visit")
	}
	if !r.Given(name) {
		return
	}
	has := func(part string) bool { return strings.Contains(k.FileName, part) }
	for _, part := range bracedRE.FindAllString(k.FileName, -1) {
		if !slices.Contains(fileParts, part) {
			r.Bad(name, part+" is no part of a name", "the parts are "+strings.Join(fileParts, ", "))
			return
		}
	}
	switch {
	case !fileNameRE.MatchString(bracedRE.ReplaceAllString(k.FileName, "")):
		r.Bad(name, source.Quoted([]string{k.FileName})+" has characters that not every file system takes", "write letters, digits, - and _, and parts in braces: "+strings.Join(fileParts, ", "))
	case !has(storage.VisitPart) && !has(storage.ProgramPart):
		r.Bad(name, "does not tell the programs of a job apart", "put "+storage.VisitPart+" or "+storage.ProgramPart+" in it")
	case k.OneFile && has(storage.BorePart):
		r.Bad(name, storage.BorePart+" names one bore, and the file is of all", "leave it out, or one_file")
	case has(storage.ProgramPart) && !numbered:
		r.Bad(name, storage.ProgramPart+" needs program_number", "state it, or leave the part out")
	}
}

// Stopping checks what a control says of its stops.
func Stopping(r *keys.Reader, k *process.Control) {
	const word, angle, settle = "control.orient_word", "control.orient_angle", "control.orient_settle"
	for _, key := range []string{word, angle, settle} {
		if r.Given(key) && !k.OrientedStop {
			r.Bad(key, "is given, but the spindle has no oriented stop", "write oriented_stop = true, or leave it out")
			return
		}
	}
	switch {
	case r.Given(word) != r.Given(angle):
		r.Bad(map[bool]string{true: word, false: angle}[r.Given(word)], "stands alone", `give both orient_word = "S" or "R" and orient_angle, or neither`)
	case k.OrientSettle > 0 && k.Dwell == process.DwellRevolutions:
		r.Bad(settle, "cannot be counted in revolutions: the spindle stands", `leave it out, or write dwell = "seconds" or "milliseconds"`)
	}
}
