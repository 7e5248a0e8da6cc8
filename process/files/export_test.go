package files

// What the tests of doubts see; they stand outside, where doubts have words.
const (
	ReboreJob = reboreJob
	SleeveJob = sleeveJob
)

var (
	MustLoad = mustLoad
	Edit     = edit
	Catalog  = catalog
)
