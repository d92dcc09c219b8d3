package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
	"slices"
	"sort"

	"go.etcd.io/bbolt"
)

// bbolt keeps no checksums: where a byte of a key, of a page's header or of a branch
// changed, a look-up finds nothing, and says so as if nothing had ever been there. So
// that something is not there counts only where the pages in which it would be are as
// they were written: on the way down each page begins with the key that its parent has
// for it, so does the one after it, and all entries of the leaf have their checksums.

// proof reads the pages of one transaction's state, as it was on disk when it began.
type proof struct {
	walker  *walker
	root    uint64
	buckets map[string][]byte // their headers, or they themselves where they are small
	known   map[uint64]*branching
}

// branching is what is kept of a page that was found whole.
type branching struct {
	first    []byte // key, nil in an empty page
	keys     [][]byte
	children []uint64 // nil in a leaf
}

// mostKnown bounds the memory of a proof.
const mostKnown = 4096

func newProof(f *os.File, tx *bbolt.Tx) *proof {
	size := int64(tx.DB().Info().PageSize)
	return &proof{
		walker: &walker{file: f, meta: meta{pageSize: size, pages: uint64(tx.Size() / size)}},
		root:   uint64(tx.Cursor().Bucket().Root()),
		known:  map[uint64]*branching{},
	}
}

// intact tells whether a bucket's pages are as they were written wherever the keys from
// one to another are, or would be. No key stands for the first or the last.
func (r *reading) intact(bucket string, from, to []byte) error {
	if r.proof == nil {
		return nil // the book is being made, and nobody else has seen it
	}
	return r.proof.check(bucket, from, to)
}

// absent is intact for one key.
func (r *reading) absent(bucket string, key []byte) error { return r.intact(bucket, key, key) }

// intactWith is intact for all keys that begin in one way.
func (r *reading) intactWith(bucket string, prefix []byte) error {
	return r.intact(bucket, prefix, beyond(prefix))
}

// beyond is a key after all that begin in one way.
func beyond(prefix []byte) []byte {
	return append(bytes.Clone(prefix), bytes.Repeat([]byte{0xFF}, orderBytes)...)
}

func (p *proof) check(bucket string, from, to []byte) error {
	err := p.listBuckets()
	if header := p.buckets[bucket]; err == nil && header != nil {
		err = p.checkBucket(header, checkOf(bucket), from, to)
	}
	var broken *pageError
	var line lineError
	if errors.As(err, &broken) || errors.As(err, &line) {
		return &DamageError{dbName, err.Error()}
	}
	return err
}

func (p *proof) checkBucket(header []byte, check func(element) error, from, to []byte) error {
	if root := binary.LittleEndian.Uint64(header); root != 0 {
		return p.tree(root, mostLevels, keyRange{from, to}, check)
	}
	inline, err := inlinePage(header)
	if err == nil {
		_, err = branchingOf(&inline, check)
	}
	return err
}

// listBuckets reads the buckets that the root names.
func (p *proof) listBuckets() error {
	if p.buckets != nil {
		return nil
	}
	found := map[string][]byte{}
	err := p.tree(p.root, mostLevels, keyRange{}, func(e element) error {
		if e.flags != elementIsBucket || len(e.value) < pageElementBytes {
			return &pageError{p.root, "something else than a bucket is at the root"}
		}
		found[string(e.key)] = bytes.Clone(e.value)
		return nil
	})
	if err == nil {
		p.buckets = found
	}
	return err
}

// renewed says that a bucket is made anew in this transaction: what was in it is gone.
func (p *proof) renewed(bucket string) error {
	if p == nil {
		return nil
	}
	err := p.listBuckets()
	delete(p.buckets, bucket)
	return err
}

// keyRange is from one key to another; nil is the first or the last.
type keyRange struct{ from, to []byte }

// tree checks the pages below one that hold keys of a range, and where the next begins.
func (p *proof) tree(id uint64, levels int, keys keyRange, check func(element) error) error {
	if levels == 0 {
		return &pageError{id, "the branches above it lead nowhere"}
	}
	at, err := p.page(id, check)
	if err != nil || at.children == nil {
		return err
	}
	first, last := at.childOf(keys.from, 0), at.childOf(keys.to, len(at.keys)-1)
	for i := first; i <= min(last+1, len(at.keys)-1); i++ {
		if err := p.beginsWith(at.children[i], at.keys[i]); err != nil {
			return err
		}
		if i <= last {
			if err := p.tree(at.children[i], levels-1, keys, check); err != nil {
				return err
			}
		}
	}
	return nil
}

// childOf is the child in which a key is or would be.
func (b *branching) childOf(key []byte, without int) int {
	if key == nil {
		return without
	}
	after := sort.Search(len(b.keys), func(i int) bool { return bytes.Compare(b.keys[i], key) > 0 })
	return max(after-1, 0)
}

// beginsWith compares the first key of a page with the one that its parent has for it.
func (p *proof) beginsWith(id uint64, want []byte) error {
	first, err := p.firstOf(id)
	if err == nil && !bytes.Equal(first, want) {
		err = beginsOtherwise(id)
	}
	return err
}

func beginsOtherwise(id uint64) error {
	return &pageError{id, "it does not begin with the key that its parent has for it"}
}

func (p *proof) firstOf(id uint64) ([]byte, error) {
	if at := p.known[id]; at != nil {
		return at.first, nil
	}
	pg, err := p.whole(id)
	if err != nil {
		return nil, err
	}
	e, err := pg.element(0)
	return e.key, err
}

// whole reads a page with those that overflow from it.
func (p *proof) whole(id uint64) (page, error) {
	pg, overflow, err := p.walker.peek(id)
	if err == nil && overflow > 0 {
		pg.data = make([]byte, int64(overflow+1)*p.walker.meta.pageSize)
		err = p.walker.bytesAt(pg.data, id)
	}
	return pg, err
}

// page reads a page and checks everything in it, once.
func (p *proof) page(id uint64, check func(element) error) (*branching, error) {
	if at := p.known[id]; at != nil {
		return at, nil
	}
	pg, err := p.whole(id)
	if err != nil {
		return nil, err
	}
	at, err := branchingOf(&pg, check)
	if err != nil {
		return nil, err
	}
	if len(p.known) >= mostKnown {
		clear(p.known)
	}
	p.known[id] = at
	return at, nil
}

// branchingOf checks a page: its entries lie one after the other without a gap, their
// keys ascend, and each entry of a leaf is as it was written.
func branchingOf(pg *page, check func(element) error) (*branching, error) {
	at := &branching{}
	if pg.flags != pageIsLeaf && (pg.flags != pageIsBranch || pg.count == 0) {
		return nil, &pageError{pg.id, "it is neither branch nor leaf"}
	}
	next := uint64(pageHeaderBytes + pg.count*pageElementBytes)
	for i := range pg.count {
		e, err := pg.element(i)
		switch {
		case err != nil:
			return nil, err
		case e.start != next:
			return nil, &pageError{pg.id, "its entries do not lie one after the other"}
		case i > 0 && bytes.Compare(at.keys[i-1], e.key) >= 0:
			return nil, &pageError{pg.id, "its entries are not in order"}
		}
		next += uint64(len(e.key) + len(e.value))
		at.keys = append(at.keys, e.key)
		if pg.flags == pageIsBranch {
			at.children = append(at.children, e.child)
		} else if err := check(e); err != nil {
			return nil, err
		}
	}
	if pg.count > 0 {
		at.first = at.keys[0]
	}
	if at.children == nil {
		at.first, at.keys = slices.Clone(at.first), nil // the page itself can go
	}
	return at, nil
}

// checkOf checks one entry of a bucket.
func checkOf(bucket string) func(element) error {
	if bucket == eventsBucket {
		return checkEvent
	}
	return func(e element) error {
		if _, ok := unseal(e.key, e.value); !ok || e.flags != 0 {
			return notAsWritten(bucket, e.key)
		}
		return nil
	}
}

func checkEvent(e element) error {
	_, place, err := captionOf(unslim(e.key, e.value))
	if err != nil || e.flags != 0 || !bytes.Equal(place[:], e.key) {
		return lineError("an event is not as it was written")
	}
	return nil
}
