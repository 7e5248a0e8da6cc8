module borewright

go 1.26

require (
	github.com/BurntSushi/toml v1.6.0 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/sergi/go-diff v1.4.0 // indirect
	github.com/spf13/cobra v1.10.2 // indirect
	github.com/spf13/pflag v1.0.9 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
