package main

import (
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"

	"borewright/cmd/serve"
	"borewright/cmd/serve/links"
)

func serveCommand() *cobra.Command {
	var o serve.Options
	cmd := &cobra.Command{
		Use:   "serve FOLDER",
		Short: "Show the jobs on a screen at the mill, and take sizes there",
		Long: `serve shows the jobs in FOLDER as pages for a telephone or a tablet at the mill:
the next thing to do on top, sizes entered by a keypad, the rest planned from
them. It works on the same files as the commands, which go on working beside it.

It listens on this machine alone. --lan opens it to the shop's network and
prints two links with their square codes: one that may enter sizes, one that may
only read. Whoever has a link gets in; the links stay the same until --new-links
makes others. What goes over the network is not enciphered: use it on the shop's
own.

Ctrl-C ends it. What a screen says is kept is on the disk.`,
		Example: "  borewright serve jobs\n  borewright serve jobs --lan",
		Args:    func(cmd *cobra.Command, args []string) error { return need(cmd, args, "FOLDER") },
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.Fresh && !o.LAN {
				return errors.New("serve: --new-links is for --lan; without it there are no links")
			}
			s, err := serve.New(args[0], o)
			if err != nil {
				return fmt.Errorf("serve: %w", err)
			}
			defer s.Close()
			l, err := o.Listen()
			if err != nil {
				return fmt.Errorf("serve: %w", err)
			}
			if err := sayLinks(cmd.OutOrStdout(), s, l, o.LAN); err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			return s.Serve(ctx, l, cmd.ErrOrStderr())
		},
	}
	cmd.Flags().BoolVar(&o.LAN, "lan", false, "open it to the shop's network, by links that it prints")
	cmd.Flags().BoolVar(&o.Fresh, "new-links", false, "make the links anew: those given out before open nothing any more")
	cmd.Flags().IntVar(&o.Port, "port", 8620, "the port to listen on; 0 takes any that is free")
	return cmd
}

// sayLinks prints where the pages are to be had.
func sayLinks(w io.Writer, s *serve.Server, l net.Listener, lan bool) error {
	write, read := s.Links(l.Addr().(*net.TCPAddr).Port)
	if !lan {
		_, err := fmt.Fprintf(w, "Open %s on this machine. Ctrl-C ends it.\n", write[0])
		return err
	}
	if len(write) == 0 {
		return errors.New("serve: this machine has no address on a network")
	}
	if !isTerminal(os.Stdout) { // what is not a terminal is a log, and the links are secret
		_, err := fmt.Fprintf(w, "Listening on %s. The links are shown at a terminal alone; each is http://ADDRESS:PORT/in/ and one of the two words in %s.\n", l.Addr(), shown(s.SecretsFile()))
		return err
	}
	for i, kind := range []string{"To enter sizes", "To read only"} {
		these := [][]string{write, read}[i]
		fmt.Fprintf(w, "%s:\n", kind)
		for _, a := range these {
			fmt.Fprintf(w, "  %s\n", a)
		}
		if err := links.WriteCode(w, these[0]); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w, "Who has a link gets in. Ctrl-C ends it.")
	return err
}
