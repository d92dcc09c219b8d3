package book

import (
	"encoding/binary"
	"fmt"
)

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
