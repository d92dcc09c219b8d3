package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// hands is a terminal with the program in it.
type hands struct {
	t    *testing.T
	tty  *os.File
	mu   sync.Mutex
	said bytes.Buffer
}

// atTerminal starts the program at a terminal of its own.
func atTerminal(t *testing.T, program string, line ...string) *hands {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { master.Close() })
	number, err := unix.IoctlGetInt(int(master.Fd()), unix.TIOCGPTN)
	if err == nil {
		err = unix.IoctlSetPointerInt(int(master.Fd()), unix.TIOCSPTLCK, 0)
	}
	if err != nil {
		t.Fatal(err)
	}
	slave, err := os.OpenFile("/dev/pts/"+strconv.Itoa(number), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer slave.Close()
	cmd := exec.Command(program, line...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = slave, slave, slave
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
	h := &hands{t: t, tty: master}
	go h.listen()
	return h
}

func (h *hands) listen() {
	part := make([]byte, 4096)
	for {
		n, err := h.tty.Read(part)
		h.mu.Lock()
		h.said.Write(part[:n])
		h.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// sends types something in one burst, and waits until what it shall say was said since.
func (h *hands) sends(text, wants string) {
	h.t.Helper()
	h.mu.Lock()
	h.said.Reset()
	h.mu.Unlock()
	if _, err := h.tty.WriteString(text); err != nil {
		h.t.Fatal(err)
	}
	for end := time.Now().Add(30 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		h.mu.Lock()
		said := h.said.String()
		h.mu.Unlock()
		if strings.Contains(said, wants) {
			return
		}
		if time.Now().After(end) {
			h.t.Fatalf("%q: %q is not said: %q", text, wants, said)
		}
	}
}

// TestAScannerAtATerminal sends what scanners send to a real terminal: an end of line that
// is two keys is one, a Tab is one, and Enter of a person is the usual grind.
func TestAScannerAtATerminal(t *testing.T) {
	program, book := buildProgram(t), filepath.Join(t.TempDir(), "book")
	for _, line := range []string{
		"init --club Terns --station 1", "player add --name Lindqvarn --sweater 17 --position defence", "specs 17 --passes 5", "pair add 17",
		"stockin runner --model R --size 280 --count 2", "set add 17 --left R1-1-77 --right R1-2-74", "in 17 A",
	} {
		if out, err := exec.Command(program, append(strings.Fields(line), "--book", book)...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", line, err, out)
		}
	}
	entries := func() int {
		journal, err := os.ReadFile(filepath.Join(book, "journal.jsonl"))
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(journal, []byte("\n"))
	}
	before := entries()
	h := atTerminal(t, program, "scan", "--book", book)
	h.sends("", "scan> ")
	for _, burst := range []string{"17\r\n", "17\r\r", "17\t", "17\t\r", "]C117\t\r\n"} {
		h.sends(burst, "17 Lindqvarn")
		h.sends("?\r", "Enter usual grind") // all before it was acted on
	}
	if got := entries() - before; got != 0 {
		t.Errorf("%d entries, want none", got)
	}
	h.sends("17\r\n", "17 Lindqvarn")
	time.Sleep(time.Second)
	h.sends("\r", "grind on set A")
	h.sends("q\r", "everybody with steel on was logged")
	if got := entries() - before; got != 1 {
		t.Errorf("%d entries, want one", got)
	}
}
