package workflow

// CardKind says what a card of the shop's library describes.
type CardKind string

// The kinds of card.
const (
	BindingCard CardKind = "binding"
	SkiCard     CardKind = "ski"
)

// Card is an item of the shop's library: the answers about a binding or a ski
// that are the same for every pair of its kind. Taking a card fills the step;
// the technician still confirms each value.
type Card struct {
	Kind    CardKind `json:"kind"`
	Name    string   `json:"name"` // unique within its kind
	Answers Answers  `json:"answers"`
}
