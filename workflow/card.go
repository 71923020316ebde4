package workflow

// CardKind says what a card of the shop's library describes.
type CardKind string

// The kinds of card.
const (
	BindingCard CardKind = "binding"
	SkiCard     CardKind = "ski"
	// HolesCard is no item of the library: it is made of an earlier job of the
	// shop on the same pair, and named by its ticket.
	HolesCard CardKind = "holes"
)

// Card is an item of the shop's library: the answers about a binding or a ski
// that are the same for every pair of its kind. Taking a card fills the step;
// the technician still confirms each value.
type Card struct {
	Kind    CardKind `json:"kind"`
	Name    string   `json:"name"`            // unique within its kind
	About   string   `json:"about,omitempty"` // one line for the eye; not kept
	Answers Answers  `json:"answers"`
}
