package book

import (
	"encoding/binary"
	"os"
)

// mostLevels is how deep a tree of pages can be: each level has at least two branches.
const mostLevels = 40

// skim checks what bbolt trusts while it opens a file and finds its way in it: the
// branches of all trees and the list of free pages. A branch that leads back to where
// it came from would make bbolt run for ever. Of a million events that is a hundredth
// of the pages; what is in the leaves, bbolt's own checks and ours meet when it is read.
func skim(f *os.File, m meta) error {
	w, err := newWalker(f, m)
	if err != nil {
		return err
	}
	buckets, err := w.buckets()
	if err != nil {
		return err
	}
	for _, b := range buckets {
		root := binary.LittleEndian.Uint64(b.value)
		if root == 0 {
			continue // it is inside of its parent
		}
		levels, err := w.levelsBelow(root)
		if err != nil {
			return err
		}
		if err := w.skimTree(root, levels); err != nil {
			return err
		}
	}
	free, err := w.free()
	for i := 0; err == nil && i < len(free); i++ {
		err = w.use(free[i], 1)
	}
	return err
}

// levelsBelow counts the levels of branches from a page down to the leaves: all leaves
// of a tree are on one level.
func (w *walker) levelsBelow(id uint64) (int, error) {
	for level := range mostLevels {
		p, _, err := w.peek(id)
		switch {
		case err != nil:
			return 0, err
		case p.flags == pageIsLeaf:
			return level, nil
		case p.flags != pageIsBranch || p.count == 0:
			return 0, &pageError{id, "it is neither branch nor leaf"}
		}
		id, _ = p.child(0)
	}
	return 0, &pageError{id, "the branches above it lead nowhere"}
}

// skimTree reads the branches from a page down, and not the leaves.
func (w *walker) skimTree(id uint64, levels int) error {
	if levels == 0 {
		if id < 2 || id >= w.meta.pages {
			return &pageError{id, "there is no such page"}
		}
		return w.use(id, 1)
	}
	p, err := w.read(id)
	if err != nil {
		return err
	}
	if p.flags != pageIsBranch {
		return &pageError{id, "it is no branch"}
	}
	for i := range p.count {
		child, ok := p.child(i)
		if !ok {
			return &pageError{id, "it has more entries than room"}
		}
		if err := w.skimTree(child, levels-1); err != nil {
			return err
		}
	}
	w.spare = append(w.spare, p.data[:w.meta.pageSize])
	return nil
}

// child is the page that the entry of a branch at an index leads to.
func (p *page) child(i int) (uint64, bool) {
	at := pageHeaderBytes + i*pageElementBytes
	if at+pageElementBytes > len(p.data) {
		return 0, false
	}
	return binary.LittleEndian.Uint64(p.data[at+8:]), true
}
