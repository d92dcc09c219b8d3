package book

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"

	"steeltally/inventory"
)

// place is where a journal lies, as far as the system tells.
type place struct {
	machine    string
	fileSystem [2]int32 // its id; zero where it has none
	device     [2]uint32
	file       uint64
	born       unix.StatxTimestamp
}

// placeOf looks where a folder's journal lies.
func placeOf(dir string) (place, error) {
	path := filepath.Join(dir, journalName)
	var info unix.Statx_t
	if err := unix.Statx(unix.AT_FDCWD, path, 0, unix.STATX_INO|unix.STATX_BTIME, &info); err != nil {
		return place{}, &os.PathError{Op: "statx", Path: path, Err: err}
	}
	var disk unix.Statfs_t
	if err := unix.Statfs(path, &disk); err != nil {
		return place{}, &os.PathError{Op: "statfs", Path: path, Err: err}
	}
	return place{machineID(), disk.Fsid.Val, [2]uint32{info.Dev_major, info.Dev_minor}, info.Ino, info.Btime}, nil
}

// mark says on which machine and in which file a journal is: a copy of the folder gets
// another, the same folder under a new name, or on a disk that the system calls otherwise
// today, keeps it. A copy that keeps the machine's id, the file system's and the file
// itself (a cloned disk, or old files written into the present ones) is not told apart.
func (p place) mark() string {
	if p.fileSystem == [2]int32{} {
		return p.markByDevice()
	}
	return p.digest(fmt.Sprintf("file system %x:%x", uint32(p.fileSystem[0]), uint32(p.fileSystem[1])))
}

// markByDevice is the mark where the file system has no id, and the one that books got
// before its id was asked for.
func (p place) markByDevice() string { return p.digest(fmt.Sprintf("%d:%d", p.device[0], p.device[1])) }

func (p place) digest(disk string) string {
	text := fmt.Sprintf("%s %s %d %d.%d", p.machine, disk, p.file, p.born.Sec, p.born.Nsec)
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:writerBytes])
}

// machineMark is the mark of a folder's journal.
func machineMark(dir string) (string, error) {
	p, err := placeOf(dir)
	return p.mark(), err
}

// machineID is what the system calls the machine, or else its name.
func machineID() string {
	if id, err := os.ReadFile("/etc/machine-id"); err == nil && len(bytes.TrimSpace(id)) > 0 {
		return string(bytes.TrimSpace(id))
	}
	name, err := os.Hostname()
	if err != nil {
		return ""
	}
	return name
}

// newWriter makes the id of a new writer.
func newWriter(random io.Reader) (inventory.Writer, error) {
	if random == nil {
		random = rand.Reader
	}
	var id [writerBytes]byte
	if _, err := io.ReadFull(random, id[:]); err != nil {
		return "", fmt.Errorf("no random bytes for a writer's id: %w", err)
	}
	return inventory.Writer(hex.EncodeToString(id[:])), nil
}
