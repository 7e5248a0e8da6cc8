// Package onebyone alters the text of a job whose bores are cut through at one setting, for tests
// of what happens where each is bored by itself. Only tests import it.
package onebyone

import "regexp"

var withLine = regexp.MustCompile(`(?m)^with +=.*\n`)

// Of is the text of a job without the key that has bores cut through at one setting.
func Of(text string) string { return withLine.ReplaceAllString(text, "") }
