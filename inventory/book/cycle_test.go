package book_test

import (
	"encoding/binary"
	"fmt"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// A branch that leads back to itself or to another branch would make bbolt run until
// the memory is full.
func TestBranchesInACircleAreDamage(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 71, 400)
	whole := filesOf(t, dir)
	branches := branchPages(whole.db)
	if len(branches) == 0 {
		t.Fatal("the book is too small to have a branch")
	}
	tried := 0
	for _, at := range branches {
		for _, to := range branches {
			f := whole.clone()
			binary.LittleEndian.PutUint64(f.db[at*pageBytes+16+8:], uint64(to))
			what := fmt.Sprintf("branch %d leads to %d", at, to)
			if found, err := book.VerifyHere(f.write(t), "the test"); err != nil || found.OK {
				continue // the page was freed, and may hold anything
			}
			checkDamaged(t, f, what)
			tried++
		}
	}
	if tried == 0 {
		t.Error("no branch in use was tried")
	}
}

// branchPages lists the pages that say that they are branches.
func branchPages(db []byte) []int {
	var list []int
	for id := 2; id < len(db)/pageBytes; id++ {
		header := db[id*pageBytes:]
		if binary.LittleEndian.Uint64(header) == uint64(id) && binary.LittleEndian.Uint16(header[8:]) == 1 {
			list = append(list, id)
		}
	}
	return list
}
