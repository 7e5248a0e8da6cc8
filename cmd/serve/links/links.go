// Package links is the links that open the pages to other machines: their secrets, the addresses
// of this machine, and the square codes (ISO/IEC 18004) of them in a terminal and on paper.
package links

import (
	"errors"
	"net"
	"net/url"
	"path"
	"strconv"

	"borewright/sheets/page"
)

// ToRead is the link that opens a job to read only, at the address by which the server was asked,
// or at the first one that others reach.
func (s Secrets) ToRead(at net.Addr, job string) (string, error) {
	tcp, ok := at.(*net.TCPAddr)
	if s.Read == "" || !ok {
		return "", errors.New("there is no code: the server is not open to the shop's network, start it with --lan")
	}
	ip := tcp.IP
	if ip.IsLoopback() || ip.IsUnspecified() {
		own := Addresses()
		if len(own) == 0 {
			return "", errors.New("there is no code: this machine has no address on a network")
		}
		ip = own[0]
	}
	link := url.URL{Scheme: "http", Host: net.JoinHostPort(ip.String(), strconv.Itoa(tcp.Port)), Path: path.Join("/in", s.Read, job)}
	return link.String(), nil
}

// Page is a last page of a card with the code of a link to read its job.
func Page(link string) (page.Section, error) {
	const says = "This job on the shop's network, to read only"
	scene, err := drawn(link, "Square code", says)
	return page.Section{Title: "On a screen", OwnPage: true, Blocks: []page.Block{
		&page.Figures{Items: []page.Figure{{Scene: scene, Caption: says}}},
		&page.Paragraph{Text: "It opens while the server runs. Whoever has this page can read all jobs of the folder. The screen may be newer than this card: compare the revision and what is cut before you go by either."},
	}}, err
}

// Addresses are those of this machine on networks of its own (RFC 1918, RFC 4193); all that
// are not of this machine alone where it has none of these.
func Addresses() (own []net.IP) {
	all, _ := net.InterfaceAddrs()
	var others []net.IP
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast() {
			continue
		}
		if n.IP.IsPrivate() && n.IP.To4() != nil {
			own = append(own, n.IP)
		} else {
			others = append(others, n.IP)
		}
	}
	if len(own) == 0 {
		own = others
	}
	return own
}
