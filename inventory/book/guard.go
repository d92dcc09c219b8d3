package book

import (
	"fmt"
	"runtime/debug"
)

// guarded runs something that reads book.db. A damaged file makes bbolt panic or the
// memory map fault: that becomes a DamageError. A panic of the caller's own code
// stays one.
func guarded(calling func() bool, run func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if calling() {
			return
		}
		if p := recover(); p != nil {
			err = &DamageError{dbName, fmt.Sprintf("it cannot be read: %v", p)}
		}
	}()
	return run()
}

func neverCalling() bool { return false }
