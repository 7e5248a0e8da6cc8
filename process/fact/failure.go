package fact

import "errors"

// Err is the fact as an error: what was given cannot be worked with, or has no
// answer. A face puts the fact in words (Of); the text of the error is the kind
// only, for a test or a log.
func (f Fact) Err() error { return failure{f} }

type failure struct{ fact Fact }

func (e failure) Error() string { return string(e.fact.Kind) }

// Of is the fact that an error is, also where it was wrapped; ok is false for
// an error that is none.
func Of(err error) (f Fact, ok bool) {
	var e failure
	ok = errors.As(err, &e)
	return e.fact, ok
}
