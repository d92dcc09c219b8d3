package cli

import (
	"slices"

	"github.com/spf13/cobra"

	"steeltally/geometry"
	"steeltally/inventory"
)

// contactAsked is a runner as it stands on the ice.
type contactAsked struct {
	profile     inventory.Profile
	parts       []string
	indentation geometry.Millimetre
	pitch, span geometry.Millimetre
	length      geometry.Millimetre
}

// usualSpan is the distance between the places where heel and toe are measured, and
// usualGround the ground length of a middling runner; common practice, no source.
const (
	usualSpan   geometry.Millimetre = 160
	usualGround geometry.Millimetre = 240
)

func (a *app) calcContact() *cobra.Command {
	asked := contactAsked{span: usualSpan, length: usualGround}
	cmd := &cobra.Command{
		Use: "contact", Short: "how much steel is in the ice, and where",
		Long: `How much steel is in the ice for a profile and an indentation, and where the balance
point lies. Several radii are given from toe to heel, 9ft+13ft; each takes an equal part
of the ground length unless --parts says otherwise.

Soft ice gives way more than hard ice: try 0.03mm to 0.1mm (from memory, no source at hand).`,
		Example: "  steeltally calc contact --profile 11ft --indentation 0.05mm\n" +
			"  steeltally calc contact --profile 9ft+13ft --length 240mm --indentation 0.05mm --pitch 1mm",
		Args: cobra.NoArgs,
	}
	cmd.RunE = func(*cobra.Command, []string) error {
		contact, err := asked.contact(cmd.Flags().Changed("length"))
		if err != nil {
			return computed(err)
		}
		return a.answer(contact, contact.Meaning(),
			figure{"contact", whole(contact.Length)},
			figure{"from heel to toe", alongSteel(contact.HeelEnd) + ", " + alongSteel(contact.ToeEnd)},
			figure{"lowest point", alongSteel(contact.LowestPoint)},
			figure{"balance point", alongSteel(contact.BalancePoint)})
	}
	cmd.Flags().Var(profileFlag(&asked.profile), "profile", "profile; several radii from toe to heel as 9ft+13ft")
	cmd.MarkFlagRequired("profile")
	needLength(cmd, &asked.indentation, "indentation", "how deep the steel presses into the ice")
	mayLength(cmd.Flags(), &asked.pitch, "pitch", "heel minus toe; above zero leans forward")
	mayLength(cmd.Flags(), &asked.span, "span", "between the places where heel and toe are measured; 160mm unless told")
	mayLength(cmd.Flags(), &asked.length, "length", "ground length; with one radius endless unless told, with several 240mm")
	cmd.Flags().StringSliceVar(&asked.parts, "parts", nil, "length of each radius from toe to heel, such as 100mm,140mm")
	return cmd
}

func (c contactAsked) contact(bounded bool) (geometry.Contact, error) {
	pitch, err := geometry.PitchAngle(c.pitch, c.span)
	if err != nil {
		return geometry.Contact{}, err
	}
	if len(c.profile) == 1 && !bounded && len(c.parts) == 0 {
		return geometry.ContactOnOneRadius(c.profile[0], pitch, c.indentation)
	}
	arcs, err := c.arcs()
	if err != nil {
		return geometry.Contact{}, err
	}
	profile, err := geometry.NewProfile(0, arcs...)
	if err != nil {
		return geometry.Contact{}, err
	}
	return profile.Contact(pitch, c.indentation)
}

// arcs are the radii from heel to toe, each with its length.
func (c contactAsked) arcs() ([]geometry.Arc, error) {
	if len(c.parts) > 0 && len(c.parts) != len(c.profile) {
		return nil, usage("%d radii and %d lengths: give one length for each radius", len(c.profile), len(c.parts))
	}
	var arcs []geometry.Arc
	for i, radius := range c.profile {
		arc := geometry.Arc{Radius: radius, Length: c.length / geometry.Millimetre(len(c.profile))}
		if len(c.parts) > 0 {
			length, err := geometry.ParseLength(c.parts[i])
			if err != nil {
				return nil, err
			}
			arc.Length = length
		}
		arcs = append(arcs, arc)
	}
	slices.Reverse(arcs)
	return arcs, nil
}
