package main

import (
	"errors"
	"flag"
	"fmt"
	"net"
	"os"
	"strings"
	"syscall"
)

// defaultAddr is reached from this machine alone.
const defaultAddr = "127.0.0.1:7373"

// place is where the pages are served.
type place struct {
	addr   string
	hosts  several
	noOpen bool
}

// placeFlags adds --addr, --host and --no-open to a command.
func placeFlags(fs *flag.FlagSet) *place {
	p := &place{}
	fs.StringVar(&p.addr, "addr", defaultAddr, "")
	fs.Var(&p.hosts, "host", "")
	fs.BoolVar(&p.noOpen, "no-open", false, "")
	return p
}

// family keeps 0.0.0.0 from meaning every IPv6 address too.
func family(host string) string {
	if ip := net.ParseIP(host); ip != nil && ip.To4() != nil {
		return "tcp4"
	}
	return "tcp"
}

// isOwn reports whether an address is reached from this machine alone.
func isOwn(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || (ip != nil && ip.IsLoopback())
}

// listen opens the socket, with a caution when others can reach it.
func (p *place) listen(around surroundings) (net.Listener, error) {
	host, port, err := net.SplitHostPort(p.addr)
	if err != nil {
		return nil, misused("“%s” is not an address. Write it as %s.", p.addr, defaultAddr)
	}
	if host == "" {
		return nil, misused("Say which host to listen on: 127.0.0.1:%s for this machine alone, 0.0.0.0:%s for everyone on the network.", port, port)
	}
	l, err := net.Listen(family(host), p.addr)
	if err != nil {
		return nil, refusedSocket(p.addr, err)
	}
	if !isOwn(host) {
		fmt.Fprintln(around.err, "Caution: anyone on the network who reaches this address can read and write the journal. There is no pass code.")
		p.hosts = append(p.hosts, reachable(host)...)
	}
	return l, nil
}

// windowsInUse is what Windows answers for a port that is taken (WSAEADDRINUSE).
const windowsInUse = syscall.Errno(10048)

func refusedSocket(addr string, err error) error {
	if errors.Is(err, syscall.EADDRINUSE) || errors.Is(err, windowsInUse) {
		return fmt.Errorf("%s is in use: another program, or another rimward, listens there. Choose another port with --addr", addr)
	}
	return fmt.Errorf("cannot listen on %s: %w", addr, cause(err))
}

// reachable are the names under which others may call an address.
func reachable(host string) []string {
	names := []string{strings.ToLower(host)}
	if ip := net.ParseIP(host); ip == nil || !ip.IsUnspecified() {
		return names
	}
	if name, err := os.Hostname(); err == nil {
		names = append(names, strings.ToLower(name), strings.ToLower(name)+".local")
	}
	addrs, err := net.InterfaceAddrs()
	if err != nil {
		return names
	}
	for _, a := range addrs {
		if n, ok := a.(*net.IPNet); ok {
			names = append(names, n.IP.String())
		}
	}
	return names
}

// here is an address as a browser on this machine writes it.
func here(addr string) string {
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return addr
	}
	if ip := net.ParseIP(host); ip != nil && ip.IsUnspecified() {
		host = "127.0.0.1"
	}
	return net.JoinHostPort(host, port)
}

// cause is the innermost reason of an error of the system, without the name
// of the call that failed.
func cause(err error) error {
	for {
		inner := errors.Unwrap(err)
		if inner == nil {
			return err
		}
		err = inner
	}
}
