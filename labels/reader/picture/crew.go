package picture

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// Crew is work done at the same time. A fault of the program in one of them becomes a fault
// of who waits for all: there it can be caught, and the program goes on.
type Crew struct {
	group sync.WaitGroup
	mutex sync.Mutex
	fault *Fault // the first one
}

// Fault is a panic in another goroutine, with where that was.
type Fault struct {
	Cause any
	stack string
}

func (f *Fault) String() string { return fmt.Sprint(f.Cause) }

// Trail is where the program was.
func (f *Fault) Trail() string { return f.stack }

// Go begins a work.
func (c *Crew) Go(work func()) {
	c.group.Go(func() {
		defer func() {
			if cause := recover(); cause != nil {
				c.mutex.Lock()
				defer c.mutex.Unlock()
				if c.fault == nil {
					c.fault = &Fault{cause, string(debug.Stack())}
				}
			}
		}()
		work()
	})
}

// Wait waits for all.
func (c *Crew) Wait() {
	if c.group.Wait(); c.fault != nil {
		panic(c.fault)
	}
}
