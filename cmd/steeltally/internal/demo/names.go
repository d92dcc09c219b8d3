package demo

import "fmt"

// The people and places of Skarn Harbour. No person is meant by any of them.

const (
	clubName = "Skarn Harbour Terns"
	zoneName = "Atlantic/Faroe"
	station  = 1
)

// staff write in the book.
func staff() []string { return []string{"Runa Holveqvarn", "Bo Terskimyrd"} }

// towns are where the other clubs of the league play.
func towns() []string {
	return []string{
		"Rime Point", "Kettle Bight", "Ostervane", "Brackmouth", "Selkie Ness", "Ironvoe",
		"Marrowgate", "Glimmerholm", "Saltmarrow", "Tarnholt", "Whinfallow Quay", "Dunmarrow",
	}
}

// firstNames returns the names that players are given.
func firstNames() []string {
	return []string{
		"Aki", "Alvar", "Anders", "Ansgar", "Ari", "Aron", "Askel", "Bastian", "Birk", "Bjarni", "Brage", "Callum",
		"Casper", "Cedric", "Corin", "Dagfinn", "Danylo", "Dário", "Davor", "Edvin", "Eilif", "Einar", "Eirik", "Elias",
		"Émile", "Emrys", "Endre", "Fabrice", "Felix", "Finn", "Florian", "Frode", "Gaspar", "Gisli", "Håkon", "Halvar",
		"Hamish", "Henrik", "Iago", "Ilja", "Ingvar", "Ivo", "Jarl", "Joakim", "Jonas", "Jörn", "Kaspar", "Kjell",
		"Konrad", "Lars", "Leif", "Lorcan", "Luka", "Mads", "Magnus", "Marek", "Matti", "Mikkel", "Milo", "Nico",
		"Nils", "Odd", "Olav", "Oskar", "Øyvind", "Pål", "Pavel", "Piet", "Rasmus", "René", "Roald", "Ruben",
		"Rurik", "Sander", "Sigurd", "Simon", "Soren", "Stellan", "Sverre", "Tancred", "Teodor", "Tiago", "Tjark", "Torben",
		"Trygve", "Tuomas", "Ulrik", "Valdemar", "Vidar", "Viktor", "Wilmar", "Yann", "Zdenko",
	}
}

// surnames puts two halves together that no place, maker or family that we know of puts
// together.
func surnames() []string {
	fronts := []string{
		"Ask", "Brask", "Brim", "Dalv", "Eldr", "Fjarl", "Frosk", "Grå", "Hvesk", "Holv", "Isk", "Kaldr",
		"Klipsk", "Kvelm", "Lomv", "Mork", "Mosk", "Nordr", "Ravl", "Rimsk", "Saltr", "Sanv", "Skarn", "Skjol",
		"Stavr", "Stirm", "Sunv", "Svarsk", "Tindr", "Tornv", "Ulvr", "Vinsk", "Ørnv", "Åkv",
	}
	backs := []string{"aløy", "eqvarn", "imyrd", "urusk", "avask", "ikrånd", "otvell", "eskerl", "agvist", "idrømt", "ubrekk", "ovell"}
	var names []string
	for _, front := range fronts {
		for _, back := range backs {
			names = append(names, front+back)
		}
	}
	return names
}

// firstOfAll are the names that no book does without: accents, marks and length are
// what tags and tables have to cope with.
func firstOfAll() []string {
	return []string{
		"René Frémontel", "Søren Øksnesvoll", "Íñigo Peñarrubal", "Zoltán Kőszirom-Szélány",
		"Maximilian-Théodore Vandersteenhoven-Østbyfjord", "O'Quell D'Arquen", "Bo Yx",
	}
}

// namer gives every player a name that nobody had before.
type namer struct {
	chance chance
	given  map[string]bool
	first  []string
}

func newNamer(c chance) *namer { return &namer{c, map[string]bool{}, firstOfAll()} }

func (n *namer) name() string {
	if len(n.first) > 0 {
		name := n.first[0]
		n.first = n.first[1:]
		return name
	}
	for try := 1; ; try++ {
		name := oneOf(n.chance, firstNames()...) + " " + oneOf(n.chance, surnames()...)
		if try > 100 {
			name = fmt.Sprintf("%s %d", name, len(n.given))
		}
		if !n.given[name] {
			n.given[name] = true
			return name
		}
	}
}
