package inventory

import "fmt"

// ContainerNoted gives a trunk or a bin its number and its name.
type ContainerNoted struct {
	Container Number `json:"container"`
	Name      string `json:"name"`
}

// Kind is the word in the record.
func (*ContainerNoted) Kind() string { return "container" }

// Touches names the trunk or bin.
func (b *ContainerNoted) Touches() []Ref {
	return append(numbered(b.Container), CounterOf(b.Container))
}

func (b *ContainerNoted) line(Teller, *Event) string {
	return fmt.Sprintf("%s %s is %s", b.Container.Kind(), b.Container.Short(), b.Name)
}

// Container is the folded state of a trunk or a bin. What lies in it is told by the
// places of the pieces, which name it.
type Container struct {
	Number Number `json:"number"`
	Marks
	Event Key    `json:"event"`
	Name  string `json:"name"`
	Twice *Key   `json:"twice,omitempty"` // another trunk or bin under the same number
}

// Apply folds one event.
func (c *Container) Apply(e *Event) {
	c.notice(e)
	switch b := e.Body.(type) {
	case *ContainerNoted:
		if c.Entered() && e.Writer != c.Event.Writer && b.Name != c.Name {
			c.Twice = &e.Key
		}
		c.Event, c.Name = e.Key, b.Name
	default:
		c.Marks.apply(c.Number, e)
	}
}

// Entered tells whether the trunk or bin was entered.
func (c *Container) Entered() bool { return c.Event != Key{} }

// Flags lists what the record is unsure of about this trunk or bin.
func (c *Container) Flags() []Flag {
	flags := c.foreignFlags(c.Number)
	if c.Twice == nil {
		return flags
	}
	return append(flags, c.conflict(c.Number, Key{}, *c.Twice, "this number was given to two trunks or bins; put a new tag on one of them")...)
}

// ContainerName is what a trunk or bin is called.
func ContainerName(v View, n Number) string {
	if container, ok := v.Entity(RefOf(n)).(*Container); ok && container.Name != "" {
		return container.Name
	}
	return n.Short()
}
