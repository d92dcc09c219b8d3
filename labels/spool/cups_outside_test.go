//go:build outside

package spool

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/pdf"
	"steeltally/templates"
)

// cups is a print server of our own on a loopback port.
type cups struct {
	t       *testing.T
	dir     string
	address string
}

// startCUPS starts a server with one queue, bench, that takes whatever it is given.
func startCUPS(t *testing.T) *cups {
	t.Helper()
	c := &cups{t: t, dir: t.TempDir(), address: freeAddress(t)}
	if err := os.Chmod(filepath.Dir(c.dir), 0o711); err != nil { // filters run as another user
		t.Fatal(err)
	}
	for _, folder := range []string{"spool/tmp", "cache", "state", "log", "root"} {
		if err := os.MkdirAll(filepath.Join(c.dir, folder), 0o775); err != nil {
			t.Fatal(err)
		}
	}
	c.write("cupsd.conf", "Listen "+c.address+`
LogLevel warn
PreserveJobFiles Yes
PreserveJobHistory Yes
PageLogFormat %p %j %{media} %{job-name} %{print-scaling}
DefaultAuthType None
WebInterface No
Browsing No
<Location />
Order allow,deny
Allow from 127.0.0.1
</Location>
<Policy default>
<Limit All>
Order allow,deny
Allow all
</Limit>
</Policy>
`)
	c.write("files.conf", c.owner()+fmt.Sprintf(`FileDevice Yes
RequestRoot %[1]s/spool
TempDir %[1]s/spool/tmp
CacheDir %[1]s/cache
StateDir %[1]s/state
ServerRoot %[1]s/root
AccessLog %[1]s/log/access
ErrorLog %[1]s/log/error
PageLog %[1]s/log/page
`, c.dir))
	server := exec.Command("cupsd", "-f", "-c", filepath.Join(c.dir, "cupsd.conf"), "-s", filepath.Join(c.dir, "files.conf"))
	if err := server.Start(); err != nil {
		t.Fatalf("cupsd is needed for this test: %v", err)
	}
	t.Cleanup(func() { server.Process.Kill(); server.Wait() })
	c.await()
	c.command("lpadmin", "-p", "bench", "-E", "-v", "file:///dev/null", "-m", "raw")
	return c
}

func freeAddress(t *testing.T) string {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// owner makes the folders those of the user that the server runs jobs as.
func (c *cups) owner() string {
	if os.Geteuid() != 0 {
		return ""
	}
	lp, err := user.Lookup("lp")
	if err != nil {
		c.t.Fatal(err)
	}
	uid, _ := strconv.Atoi(lp.Uid)
	gid, _ := strconv.Atoi(lp.Gid)
	filepath.WalkDir(c.dir, func(path string, _ os.DirEntry, _ error) error { return os.Chown(path, uid, gid) })
	return "User lp\nGroup lp\nSystemGroup lpadmin root\n"
}

func (c *cups) write(name, text string) {
	c.t.Helper()
	if err := os.WriteFile(filepath.Join(c.dir, name), []byte(text), 0o640); err != nil {
		c.t.Fatal(err)
	}
}

func (c *cups) await() {
	c.t.Helper()
	for range 100 {
		if conn, err := net.Dial("tcp", c.address); err == nil {
			conn.Close()
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	c.t.Fatal("cupsd does not answer: " + c.read("log/error"))
}

func (c *cups) command(name string, arguments ...string) {
	c.t.Helper()
	command := exec.Command(name, append([]string{"-h", c.address}, arguments...)...)
	if said, err := command.CombinedOutput(); err != nil {
		c.t.Fatalf("%s: %v: %s", name, err, said)
	}
}

func (c *cups) read(name string) string {
	text, _ := os.ReadFile(filepath.Join(c.dir, name))
	return string(text)
}

// aTag is a tie-on tag as a PDF.
func aTag(t *testing.T) []byte {
	t.Helper()
	return document(t, tagPage(t, "tie-on"))
}

// tagPage is a tag at 203 dpi.
func tagPage(t *testing.T, name string) labels.Page {
	t.Helper()
	template, err := templates.Embedded().Tag(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(template, templates.Sample(), 203)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// document is a page as a PDF.
func document(t *testing.T, page labels.Page) []byte {
	t.Helper()
	document, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	if err := document.Add(page); err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	if _, err := document.WriteTo(&file); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// A real server gets the very bytes of the tag, on the medium of its size, and gives
// the job its number.
func TestCUPSGetsTheTag(t *testing.T) {
	c := startCUPS(t)
	spooler, tag := Spooler{Server: c.address}, aTag(t)
	for i, size := range [][2]geometry.Millimetre{{70, 35}, {210, 297}} {
		number, err := spooler.Submit(context.Background(), Job{"bench", "tags of 17", size[0], size[1]}, bytes.NewReader(tag))
		if err != nil {
			t.Fatal(err)
		}
		if want := fmt.Sprint("bench-", i+1); number != want {
			t.Errorf("job %s, want %s", number, want)
		}
		received := c.received(i + 1)
		if !bytes.Equal(received, tag) {
			t.Errorf("the server has %d bytes, the tag %d, or others", len(received), len(tag))
		}
		if want := Media(size[0], size[1]) + " tags of 17 none"; !c.logged(want) {
			t.Errorf("no job on %q in the page log:\n%s", want, c.read("log/page"))
		}
	}
}

// received waits for the document of a job in the server's spool.
func (c *cups) received(job int) []byte {
	for range 100 {
		if file, err := os.ReadFile(filepath.Join(c.dir, "spool", fmt.Sprintf("d%05d-001", job))); err == nil && len(file) > 0 {
			return file
		}
		time.Sleep(20 * time.Millisecond)
	}
	return nil
}

func (c *cups) logged(text string) bool {
	for range 100 {
		if strings.Contains(c.read("log/page"), text) {
			return true
		}
		time.Sleep(20 * time.Millisecond)
	}
	return false
}

// A printer that is stopped, refuses, is not there, or whose server is not there: an
// error that says which, and nothing in the queue.
func TestCUPSInTrouble(t *testing.T) {
	c := startCUPS(t)
	submit := func(server, queue string) *Refused {
		t.Helper()
		number, err := Spooler{Server: server}.Submit(context.Background(), Job{queue, "tags", 70, 35}, strings.NewReader("%PDF-1.7"))
		var refused *Refused
		if !errors.As(err, &refused) {
			t.Fatalf("job %q, error %v", number, err)
		}
		return refused
	}
	if r := submit(c.address, "nowhere"); r.Cause != NoQueue {
		t.Errorf("an unknown queue: %v", r)
	}
	c.command("cupsdisable", "-r", "out of labels", "bench")
	if r := submit(c.address, "bench"); r.Cause != Stopped || r.Detail != "out of labels" {
		t.Errorf("a stopped queue: %v", r)
	}
	c.command("cupsenable", "bench")
	c.command("cupsreject", "bench")
	if r := submit(c.address, "bench"); r.Cause != Refusing {
		t.Errorf("a refusing queue: %v", r)
	}
	if r := submit(freeAddress(t), "bench"); r.Cause != NoCUPS {
		t.Errorf("no server: %v", r)
	}
	if jobs, _ := filepath.Glob(filepath.Join(c.dir, "spool", "d*")); len(jobs) != 0 {
		t.Errorf("in the queue: %v", jobs)
	}
}
