import icon from "../look/icon.svg?raw";

// Sign is the sign of the program. It is drawn in the page, since a picture of its own costs a slow phone a tenth of a second.
export const Sign = () => <span class="sign" aria-hidden="true" dangerouslySetInnerHTML={{ __html: icon }} />;
