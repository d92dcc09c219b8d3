package inventory

// Given counts the numbers that one kind has got at one station.
type Given struct {
	Ref     Ref `json:"ref"`
	Highest int `json:"highest"`
}

// Apply folds one event: whatever number it names was given some time.
func (g *Given) Apply(e *Event) {
	for _, ref := range e.Body.Touches() {
		if n := ref.Number(); n != 0 && counterOf(n) == g.Ref {
			g.Highest = max(g.Highest, n.Running())
		}
	}
}
