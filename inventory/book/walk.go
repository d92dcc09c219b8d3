package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
)

// walker reads the tree of pages of a bbolt file. It visits every page at most once
// and looks at nothing outside of a page, so it comes to an end on any input.
type walker struct {
	file *os.File
	meta meta
	used []bool // pages that were seen
	item func(bucket string, key, value []byte) error
	last []byte // key that the next must come after

	spare [][]byte // pages that were read and are done with
}

// mostPages bounds the memory of a walk: 4 TiB of pages of 4 KiB.
const mostPages = 1 << 30

func newWalker(f *os.File, m meta) (*walker, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if m.pages > uint64(info.Size()/m.pageSize) || m.pages > mostPages {
		return nil, &pageError{m.pages, "the file ends before it"}
	}
	w := &walker{file: f, meta: m, used: make([]bool, m.pages)}
	return w, w.use(0, 2)
}

// walk calls item with everything in a file, a bucket after the other, in key order.
func walk(f *os.File, m meta, item func(bucket string, key, value []byte) error) error {
	w, err := newWalker(f, m)
	if err != nil {
		return err
	}
	w.item = item
	buckets, err := w.buckets()
	if err != nil {
		return err
	}
	for _, b := range buckets {
		if err := w.bucket(b); err != nil {
			return err
		}
	}
	return w.freelist()
}

// peek gives a page without those that overflow from it, and how many these are.
func (w *walker) peek(id uint64) (page, uint64, error) {
	if id < 2 || id >= w.meta.pages {
		return page{}, 0, &pageError{id, "there is no such page"}
	}
	data := w.room()
	if err := w.bytesAt(data, id); err != nil {
		return page{}, 0, err
	}
	p, overflow := decodePage(data)
	if p.id != id {
		return p, 0, &pageError{id, fmt.Sprintf("it says that it is page %d", p.id)}
	}
	if overflow >= w.meta.pages-id {
		return p, 0, &pageError{id, "it is longer than the file"}
	}
	return p, overflow, nil
}

// room is memory for one page.
func (w *walker) room() []byte {
	last := len(w.spare) - 1
	if last < 0 {
		return make([]byte, w.meta.pageSize)
	}
	data := w.spare[last]
	w.spare = w.spare[:last]
	return data
}

// read gives a whole page that nothing else used yet.
func (w *walker) read(id uint64) (page, error) {
	p, overflow, err := w.peek(id)
	if err != nil {
		return p, err
	}
	if err := w.use(id, overflow+1); err != nil || overflow == 0 {
		return p, err
	}
	p.data = make([]byte, int64(overflow+1)*w.meta.pageSize)
	return p, w.bytesAt(p.data, id)
}

func (w *walker) bytesAt(data []byte, id uint64) error {
	_, err := w.file.ReadAt(data, int64(id)*w.meta.pageSize)
	if errors.Is(err, io.EOF) {
		return &pageError{id, "the file ends in it"}
	}
	return err
}

func (w *walker) use(id, count uint64) error {
	for i := id; i < id+count; i++ {
		if w.used[i] {
			return &pageError{i, "it is used twice"}
		}
		w.used[i] = true
	}
	return nil
}

// namedBucket is a bucket as the root names it.
type namedBucket struct {
	name  string
	value []byte
}

// buckets lists the buckets that the root names.
func (w *walker) buckets() ([]namedBucket, error) {
	var found []namedBucket
	err := w.tree(w.meta.root, nil, func(_ *page, e element) error {
		if e.flags != elementIsBucket || len(e.value) < pageElementBytes {
			return &pageError{w.meta.root, "something else than a bucket is at the root"}
		}
		found = append(found, namedBucket{string(e.key), bytes.Clone(e.value)})
		return nil
	})
	return found, err
}

// bucket walks one bucket: a tree of its own, or a leaf inside of its parent.
func (w *walker) bucket(b namedBucket) error {
	name, value := b.name, b.value
	visit := func(p *page, e element) error {
		if e.flags != 0 {
			return &pageError{p.id, "an entry has a flag that none has"}
		}
		return w.item(name, e.key, e.value)
	}
	w.last = nil
	if root := binary.LittleEndian.Uint64(value); root != 0 {
		return w.tree(root, nil, visit)
	}
	inline, err := inlinePage(value)
	if err != nil {
		return err
	}
	return w.leaf(&inline, visit)
}

// inlinePage is the leaf of a bucket that is small enough to lie inside of its parent.
func inlinePage(value []byte) (page, error) {
	data := value[pageElementBytes:]
	inline, _ := decodePage(append(slices.Clip(data), make([]byte, pageHeaderBytes)...))
	if inline.data = data; inline.flags != pageIsLeaf {
		return inline, &pageError{0, "a bucket inside of it is no leaf"}
	}
	return inline, nil
}

// tree walks the pages from one on. begins is the key that its parent has for it.
func (w *walker) tree(id uint64, begins []byte, visit func(*page, element) error) error {
	p, err := w.read(id)
	if err != nil {
		return err
	}
	if begins != nil {
		if first, err := p.element(0); err != nil || !bytes.Equal(first.key, begins) {
			return beginsOtherwise(id)
		}
	}
	switch p.flags {
	case pageIsLeaf:
		return w.leaf(&p, visit)
	case pageIsBranch:
		return w.branch(&p, visit)
	}
	return &pageError{id, "it is neither branch nor leaf"}
}

func (w *walker) branch(p *page, visit func(*page, element) error) error {
	if p.count == 0 {
		return &pageError{p.id, "it is a branch without entries"}
	}
	for i := range p.count {
		e, err := p.element(i)
		if err != nil {
			return err
		}
		if w.last != nil && bytes.Compare(w.last, e.key) >= 0 {
			return &pageError{p.id, "its entries overlap those before"}
		}
		if err := w.tree(e.child, e.key, visit); err != nil {
			return err
		}
	}
	return nil
}

func (w *walker) leaf(p *page, visit func(*page, element) error) error {
	for i := range p.count {
		e, err := p.element(i)
		if err != nil {
			return err
		}
		if w.last != nil && bytes.Compare(w.last, e.key) >= 0 {
			return &pageError{p.id, "its entries are not in order"}
		}
		w.last = append(w.last[:0], e.key...)
		if err := visit(p, e); err != nil {
			return err
		}
	}
	return nil
}

// freelist checks that every page is either used or free: a used page that is listed
// as free would be overwritten next.
func (w *walker) freelist() error {
	ids, err := w.free()
	if err != nil {
		return err
	}
	for _, id := range ids {
		if err := w.use(id, 1); err != nil {
			return &pageError{id, "it is in use and listed as free"}
		}
	}
	for id, used := range w.used {
		if !used {
			return &pageError{uint64(id), "it is neither in use nor free"}
		}
	}
	return nil
}

// free reads the list of free pages.
func (w *walker) free() ([]uint64, error) {
	p, err := w.read(w.meta.freelist)
	if err != nil {
		return nil, err
	}
	if p.flags != pageIsFreelist {
		return nil, &pageError{p.id, "it is not the list of free pages"}
	}
	list := p.data[pageHeaderBytes:]
	count := uint64(p.count)
	if count == 0xFFFF {
		count, list = binary.LittleEndian.Uint64(list), list[8:]
	}
	if count > uint64(len(list)/8) {
		return nil, &pageError{p.id, "it lists more free pages than it has room for"}
	}
	ids := make([]uint64, count)
	for i := range ids {
		if ids[i] = binary.LittleEndian.Uint64(list[8*i:]); ids[i] >= w.meta.pages {
			return nil, &pageError{p.id, "it lists a free page outside of the file"}
		}
	}
	return ids, nil
}
