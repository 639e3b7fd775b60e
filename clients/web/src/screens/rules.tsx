export function Rules() { return <h1>Rules</h1>; }
