package inventory

// NotePrints notes that tags came out.
type NotePrints []Printed

// Decide records them.
func (d NotePrints) Decide(_ View, m Moment) (Outcome, error) {
	var out Outcome
	for i := range d {
		out.record(m.Happened, &d[i])
	}
	return out, nil
}

const mostBlank = 500

// ReserveBlank keeps numbers for blank tags of a kind, for good.
type ReserveBlank struct {
	Piece Kind // runner or holder
	Count int
}

// Decide keeps the next numbers of this station.
func (d ReserveBlank) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if d.Piece != KindRunner && d.Piece != KindHolder {
		return out, badValue("steeltally tag --blank 48 runner", "blank tags are for runners and holders")
	}
	if d.Count < 1 || d.Count > mostBlank {
		return out, badValue("take more in several goes", "%d blank tags: 1 to %d can be made at once", d.Count, mostBlank)
	}
	numbers, err := nextNumbers(v, d.Piece, d.Count)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &Reserved{Piece: d.Piece.String(), Station: numbers[0].Station(), First: numbers[0].Running(), Count: d.Count})
	return out, nil
}

// IsBlank tells whether a number was kept for a blank tag and no piece has it yet.
func IsBlank(v View, n Number) bool {
	if n == 0 || entered(v.Entity(RefOf(n))) {
		return false
	}
	given, ok := v.Entity(counterOf(n)).(*Given)
	return ok && given.isBlank(n.Running())
}

func (g *Given) isBlank(running int) bool {
	for _, span := range g.Blank {
		if running >= span.First && running < span.First+span.Count {
			return true
		}
	}
	return false
}

// NoteContainer enters a trunk or a bin.
type NoteContainer struct {
	Container Kind
	Name      string
}

// Decide gives it a number; two of a kind can't have one name, since pieces lie in it
// by its name.
func (d NoteContainer) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("its name", d.Name); err != nil {
		return out, err
	}
	if other := ContainerNamed(v, d.Name); other != nil {
		return out, refuse("print its tag: steeltally tag "+other.Number.Short(), "%s is %s already", d.Name, other.Number.Short())
	}
	numbers, err := nextNumbers(v, d.Container, 1)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &ContainerNoted{numbers[0], d.Name})
	return out, nil
}

// ContainerNamed is the trunk or bin of a name, or nil.
func ContainerNamed(v View, name string) *Container {
	var found *Container
	for _, kind := range []Kind{KindTrunk, KindBin} {
		v.Each(kind, func(_ Number, state Entity) bool {
			if container, ok := state.(*Container); ok && container.Name == name {
				found = container
			}
			return found == nil
		})
	}
	return found
}

// FindContainer is a trunk or a bin by its number.
func FindContainer(v View, n Number) (*Container, error) {
	container, ok := v.Entity(RefOf(n)).(*Container)
	if !ok || !container.Entered() {
		return nil, refuse("steeltally stockin "+n.Kind().String()+" --name NAME enters one", "%s is not in this book", n.Short())
	}
	return container, nil
}
