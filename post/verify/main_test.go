package verify

import (
	"testing"

	"borewright/process/slow"
)

func TestMain(m *testing.M) { slow.Main(m) }
