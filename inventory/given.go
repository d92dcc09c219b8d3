package inventory

// Given counts the numbers that one kind has got at one station.
type Given struct {
	Ref     Ref    `json:"ref"`
	Highest int    `json:"highest"`
	Blank   []Span `json:"blank,omitempty"` // given to blank tags, whether entered since or not
}

// Span is a run of running numbers.
type Span struct {
	First int `json:"first"`
	Count int `json:"count"`
}

// Apply folds one event: whatever number it names was given some time.
func (g *Given) Apply(e *Event) {
	if b, ok := e.Body.(*Reserved); ok {
		g.Blank = append(g.Blank, Span{b.First, b.Count})
		g.Highest = max(g.Highest, b.First+b.Count-1)
		return
	}
	for _, ref := range e.Body.Touches() {
		if n := ref.Number(); n != 0 && counterOf(n) == g.Ref {
			g.Highest = max(g.Highest, n.Running())
		}
	}
}
