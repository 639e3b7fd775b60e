export function ClassRoom() { return <h1>Class room</h1>; }
