package files

import "os"

// guidedJob is the job of testdata/process/good/guided.toml: three webs, each guides the bar for
// the next.
var guidedJob = func() string {
	data, err := os.ReadFile("../../testdata/process/good/guided.toml")
	if err != nil {
		panic(err)
	}
	return string(data)
}()
