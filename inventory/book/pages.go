package book

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"os"
)

// This file reads the pages of a bbolt file as bytes, without mapping it, so that a
// damaged one can neither crash nor hang the program. The form is that of bbolt's
// version 2 on a little-endian machine (bbolt 1.5.0, internal/common).

const (
	pageHeaderBytes  = 16
	pageElementBytes = 16
	pageIsBranch     = 0x01
	pageIsLeaf       = 0x02
	pageIsMeta       = 0x04
	pageIsFreelist   = 0x10
	elementIsBucket  = 0x01
	metaBytes        = 64
	metaMagic        = 0xED0CDAED
	metaVersion      = 2
	smallestPage     = 1 << 10
	largestPage      = 1 << 16
)

// meta is one of the two pages from which everything else is reached.
type meta struct {
	pageSize int64
	root     uint64
	freelist uint64
	pages    uint64 // how many pages are in use or free; the file has at least these
	txid     uint64
}

// decodeMeta reads a meta page; false where it is not one, or not as it was written.
func decodeMeta(page []byte) (meta, bool) {
	if len(page) < pageHeaderBytes+metaBytes {
		return meta{}, false
	}
	body := page[pageHeaderBytes : pageHeaderBytes+metaBytes]
	u32 := func(at int) uint32 { return binary.LittleEndian.Uint32(body[at:]) }
	u64 := func(at int) uint64 { return binary.LittleEndian.Uint64(body[at:]) }
	sum := fnv.New64a()
	_, _ = sum.Write(body[:56])
	m := meta{int64(u32(8)), u64(16), u64(32), u64(40), u64(48)}
	valid := u32(0) == metaMagic && u32(4) == metaVersion && u64(56) == sum.Sum64() &&
		m.pageSize >= smallestPage && m.pageSize <= largestPage && m.root < m.pages
	return m, valid
}

// metas are both meta pages of a file.
type metas struct {
	newest meta
	both   bool // both are as they were written
}

// readMetas finds the newest meta page, as bbolt does, and looks at the other one too.
func readMetas(f *os.File) (metas, error) {
	first, firstValid, err := metaAt(f, 0)
	if err != nil {
		return metas{}, err
	}
	size := first.pageSize
	if !firstValid {
		size = int64(os.Getpagesize())
	}
	second, secondValid, err := metaAt(f, size)
	if err != nil {
		return metas{}, err
	}
	switch {
	case firstValid && secondValid:
		if second.txid > first.txid {
			first = second
		}
		return metas{first, true}, nil
	case firstValid:
		return metas{first, false}, nil
	case secondValid:
		return metas{second, false}, nil
	}
	return metas{}, &DamageError{dbName, "neither of its first two pages is one of a book: it is another program's file, or both are lost"}
}

func metaAt(f *os.File, at int64) (meta, bool, error) {
	page := make([]byte, pageHeaderBytes+metaBytes)
	if _, err := f.ReadAt(page, at); err != nil && !errors.Is(err, io.EOF) {
		return meta{}, false, err
	}
	m, valid := decodeMeta(page)
	return m, valid, nil
}

// inspectFile looks at what must hold before a file is mapped into memory.
func inspectFile(path string) (metas, error) {
	f, err := os.Open(path)
	if err != nil {
		return metas{}, err
	}
	defer f.Close()
	found, err := readMetas(f)
	if err != nil {
		return found, err
	}
	err = skim(f, found.newest)
	var broken *pageError
	if errors.As(err, &broken) {
		return found, &DamageError{dbName, err.Error()}
	}
	return found, err
}

// pageError says what is wrong with a page.
type pageError struct {
	page uint64
	what string
}

func (e *pageError) Error() string { return fmt.Sprintf("page %d: %s", e.page, e.what) }

// page is one page with those that overflow from it.
type page struct {
	id    uint64
	flags uint16
	count int
	data  []byte
}

func decodePage(data []byte) (p page, overflow uint64) {
	return page{
		id: binary.LittleEndian.Uint64(data), flags: binary.LittleEndian.Uint16(data[8:]),
		count: int(binary.LittleEndian.Uint16(data[10:])), data: data,
	}, uint64(binary.LittleEndian.Uint32(data[12:]))
}

// element is one entry of a branch or a leaf.
type element struct {
	flags      uint32
	child      uint64
	start      uint64 // of the key in the page
	key, value []byte
}

// element reads the entry at an index, or an error where it is not inside of the page.
func (p *page) element(i int) (element, error) {
	at := pageHeaderBytes + i*pageElementBytes
	if at+pageElementBytes > len(p.data) {
		return element{}, &pageError{p.id, "it has more entries than room"}
	}
	u32 := func(offset int) uint64 { return uint64(binary.LittleEndian.Uint32(p.data[at+offset:])) }
	var e element
	var keyLength, valueLength uint64
	if p.flags == pageIsLeaf {
		e.flags = uint32(u32(0))
		e.start, keyLength, valueLength = uint64(at)+u32(4), u32(8), u32(12)
	} else {
		e.start, keyLength = uint64(at)+u32(0), u32(4)
		e.child = binary.LittleEndian.Uint64(p.data[at+8:])
	}
	if e.start+keyLength+valueLength > uint64(len(p.data)) || keyLength == 0 {
		return e, &pageError{p.id, "an entry is not inside of it"}
	}
	e.key = p.data[e.start : e.start+keyLength]
	e.value = p.data[e.start+keyLength : e.start+keyLength+valueLength]
	return e, nil
}
