package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
)

// walker reads the tree of pages of a bbolt file. It visits every page at most once
// and looks at nothing outside of a page, so it comes to an end on any input.
type walker struct {
	file *os.File
	meta meta
	used []bool // pages that were seen
	item func(bucket string, key, value []byte) error
	last []byte // key that the next must come after
}

// mostPages bounds the memory of a walk: 4 TiB of pages of 4 KiB.
const mostPages = 1 << 30

// walk calls item with everything in a file, a bucket after the other, in key order.
func walk(f *os.File, m meta, item func(bucket string, key, value []byte) error) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if m.pages > uint64(info.Size()/m.pageSize) || m.pages > mostPages {
		return &pageError{m.pages, "the file ends before it"}
	}
	w := &walker{file: f, meta: m, used: make([]bool, m.pages), item: item}
	w.used[0], w.used[1] = true, true
	if err := w.buckets(); err != nil {
		return err
	}
	return w.freelist()
}

// read gives a page that nothing else used yet.
func (w *walker) read(id uint64) (page, error) {
	if id < 2 || id >= w.meta.pages {
		return page{}, &pageError{id, "there is no such page"}
	}
	header := make([]byte, w.meta.pageSize)
	if err := w.bytesAt(header, id); err != nil {
		return page{}, err
	}
	p, overflow := decodePage(header)
	if p.id != id {
		return p, &pageError{id, fmt.Sprintf("it says that it is page %d", p.id)}
	}
	if overflow >= w.meta.pages-id {
		return p, &pageError{id, "it is longer than the file"}
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

// buckets walks the root and every bucket that it names.
func (w *walker) buckets() error {
	type bucket struct {
		name  string
		value []byte
	}
	var found []bucket
	err := w.tree(w.meta.root, nil, func(_ *page, e element) error {
		if e.flags != elementIsBucket || len(e.value) < pageElementBytes {
			return errors.New("something else than a bucket is at the root")
		}
		found = append(found, bucket{string(e.key), bytes.Clone(e.value)})
		return nil
	})
	for _, b := range found {
		if err == nil {
			err = w.bucket(b.name, b.value)
		}
	}
	return err
}

// bucket walks one bucket: a tree of its own, or a leaf inside of its parent.
func (w *walker) bucket(name string, value []byte) error {
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
	inline, _ := decodePage(append(value[pageElementBytes:], make([]byte, pageHeaderBytes)...))
	if inline.flags != pageIsLeaf {
		return &pageError{0, "the bucket " + name + " is no leaf"}
	}
	inline.data = value[pageElementBytes:]
	return w.leaf(&inline, visit)
}

// tree walks the pages from one on. least is the key that its parent knows it by.
func (w *walker) tree(id uint64, least []byte, visit func(*page, element) error) error {
	p, err := w.read(id)
	if err != nil {
		return err
	}
	if p.count > 0 && least != nil {
		if first, err := p.element(0); err != nil || bytes.Compare(first.key, least) < 0 {
			return &pageError{id, "it begins before the place that its parent gives it"}
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
	if w.meta.freelist == noPage {
		return nil
	}
	p, err := w.read(w.meta.freelist)
	if err != nil {
		return err
	}
	if p.flags != pageIsFreelist {
		return &pageError{p.id, "it is not the list of free pages"}
	}
	ids := p.data[pageHeaderBytes:]
	count := uint64(p.count)
	if count == 0xFFFF {
		count, ids = binary.LittleEndian.Uint64(ids), ids[8:]
	}
	if count > uint64(len(ids)/8) {
		return &pageError{p.id, "it lists more free pages than it has room for"}
	}
	for i := range count {
		id := binary.LittleEndian.Uint64(ids[8*i:])
		if id >= w.meta.pages {
			return &pageError{p.id, "it lists a free page outside of the file"}
		}
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
